/**
 * Watches what a page asks for and what its policy refuses, and reads the policy of an answer.
 */
import type { Page, Response } from '@playwright/test'

export type Watch = { readonly outside: string[]; readonly refused: string[]; asked: number }

/** From now on: addresses outside the page's origin, and words of the console about the policy. */
export function watch(page: Page, origin: string): Watch {
  const seen: Watch = { outside: [], refused: [], asked: 0 }
  page.on('request', request => {
    seen.asked++
    const { protocol, origin: asked } = new URL(request.url())
    if (protocol !== 'data:' && asked !== origin) seen.outside.push(request.url())
  })
  page.on('console', message => {
    if (/content security policy/i.test(message.text())) seen.refused.push(message.text())
  })
  return seen
}

/** What is wrong with the policy that came with a page, and with the scripts in it. */
export async function policyFaults(answer: Response | null): Promise<string[]> {
  const policy = answer?.headers()['content-security-policy'] ?? ''
  const scripts = /script-src ([^;]*)/.exec(policy)?.[1] ?? ''
  const nonce = /'nonce-([^']+)'/.exec(scripts)?.[1]
  const faults: string[] = []
  if (nonce === undefined) faults.push(`no nonce for scripts in "${policy}"`)
  if (/unsafe-(inline|eval)/.test(scripts)) faults.push(`scripts of the page itself may run: "${scripts}"`)
  // Those that a script with the nonce adds are trusted through it.
  const source = (await answer?.text()) ?? ''
  const bare = (source.match(/<script\b[^>]*>/g) ?? []).filter(tag => !tag.includes(`nonce="${nonce}"`))
  if (bare.length > 0) faults.push(`scripts without the nonce: ${bare.slice(0, 3).join(' ')}`)
  return faults
}
