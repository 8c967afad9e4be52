/**
 * Signing in at the identity provider of the tests as a browser without JavaScript does: its pages, its forms, its
 * cookies in a jar of their own.
 */
import { type Answer, PlainBrowser } from './plain-browser.ts'
import { filled, formWith } from './plain-form.ts'

const STEPS_MAX = 12

/** Leaves from us, signs in there and agrees; gives the address that leads back, which nobody has followed yet. */
export async function visitIdentity(
  who: PlainBrowser,
  us: string,
  issuer: string,
  account: string,
  query = '',
): Promise<string> {
  const there = new PlainBrowser(() => issuer)
  let { to: next } = await who.get(`/sign-in/provider${query}`)
  for (let step = 0; step < STEPS_MAX && !next.startsWith(us); step += 1) {
    const page = await there.get(next)
    next = new URL(page.to || (await agree(there, next, page, account)), issuer).href
  }
  return next
}

async function agree(there: PlainBrowser, at: string, { html }: Answer, account: string): Promise<string> {
  const form = formWith(html, ['prompt'])
  if (form === undefined) throw new Error(`no form at ${at}: ${html.slice(0, 300)}`)
  const typed = filled(form, form.names.has('login') ? { login: account, password: 'any' } : {})
  const sent = new URLSearchParams([...typed].map(([name, value]) => [name, String(value)]))
  return (await there.post(at, sent)).to
}
