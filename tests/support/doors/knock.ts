/**
 * Knocks at the doors of the running server over HTTP, as one person or as nobody, and says what the answer was.
 * An action is called as the browser calls it: its number from the build's manifest, the state of a fresh form, and the
 * fields; `sendForm` sends the form the way a browser without JavaScript does.
 */
import { readFileSync } from 'node:fs'
import { encode } from 'next-auth/jwt'
import { z } from 'zod'
import { surroundings } from '#tests/support/session.ts'

export type Fields = Readonly<Record<string, string>>
/** What an answer came to: let through (`yes`), or the status of the refusal. */
export type Answer = 'yes' | '401' | '403' | '404' | '500'

const FRESH_FORM = { status: 'fresh', fieldErrors: {}, values: {} }
const SESSION_SECONDS = 24 * 60 * 60
const REFUSED: Readonly<Record<string, Answer>> = {
  'signed-out': '401',
  forbidden: '403',
  'not-found': '404',
  fault: '500',
}

const manifest = z.object({
  node: z.record(
    z.string(),
    z.object({
      filename: z.string(),
      exportedName: z.string(),
      workers: z.record(z.string(), z.unknown()),
    }),
  ),
})

export type ServerAction = { readonly id: string; readonly name: string; readonly pages: readonly string[] }

/** Every server action of the production build, named by folder and export. */
export function listActions(): ServerAction[] {
  const built = JSON.parse(readFileSync('.next/server/server-reference-manifest.json', 'utf8'))
  return Object.entries(manifest.parse(built).node).map(([id, one]) => ({
    id,
    name: `${one.filename.replace(/^app\//, '').replace(/\/actions\.ts$/, '')} ${one.exportedName}`,
    pages: Object.keys(one.workers).map(page => page.replace(/^app/, '').replace(/\/page$/, '')),
  }))
}

/** The cookie of a session, as the program itself sets it. */
export async function cookieOf(person: { readonly id: number; readonly epoch: number }): Promise<string> {
  const token = { sub: String(person.id), epoch: person.epoch }
  const value = await encode({
    token,
    secret: surroundings('NEXTAUTH_SECRET'),
    maxAge: SESSION_SECONDS,
  })
  return `next-auth.session-token=${value}`
}

type Asked = { readonly cookie: string | undefined; readonly origin?: string }

/** A page or a route, read. A redirect comes back as where it leads. */
export async function read(path: string, { cookie }: Asked): Promise<string> {
  const answer = await fetch(surroundings('NEXTAUTH_URL') + path, {
    headers: cookie === undefined ? {} : { cookie },
    redirect: 'manual',
  })
  // A stream of events never ends by itself.
  if (answer.headers.get('content-type')?.startsWith('text/event-stream')) await answer.body?.cancel()
  else await answer.arrayBuffer()
  const to = answer.headers.get('location')
  return to === null ? String(answer.status) : `to ${new URL(to, surroundings('NEXTAUTH_URL')).pathname}`
}

/** Calls an action from a page that has it. */
export async function call(id: string, page: string, fields: Fields, asked: Asked): Promise<Answer> {
  const body = new FormData()
  for (const [name, value] of Object.entries(fields)) body.append(`_1_${name}`, value)
  // The reader takes the fields that came before the list of arguments.
  body.append('0', JSON.stringify([FRESH_FORM, '$K1']))
  const answer = await post(page, body, { ...asked, action: id })
  const text = await answer.text()
  if (answer.headers.get('x-action-redirect') !== null) return 'yes'
  if (text.includes('"status":"told"')) return 'yes'
  const code = /"status":"refused","code":"([a-z-]+)"/.exec(text)?.[1]
  if (code === undefined) throw new Error(`no answer of an action: ${answer.status} ${text.slice(0, 300)}`)
  return REFUSED[code] ?? 'yes'
}

/** Sends an action's form as a browser without JavaScript does; the page comes back, or where it leads. */
export async function sendForm(id: string, page: string, fields: Fields, asked: Asked): Promise<Response> {
  const body = new FormData()
  body.append('$ACTION_REF_1', '')
  body.append('$ACTION_1:0', JSON.stringify({ id, bound: '$@1' }))
  body.append('$ACTION_1:1', JSON.stringify([FRESH_FORM]))
  for (const [name, value] of Object.entries(fields)) body.append(name, value)
  return post(page, body, asked)
}

/** Posts from one of our own pages unless another origin is named. */
export async function post(
  path: string,
  body: FormData,
  { cookie, origin, action }: Asked & { readonly action?: string },
): Promise<Response> {
  const base = surroundings('NEXTAUTH_URL')
  return fetch(base + path, {
    method: 'POST',
    body,
    redirect: 'manual',
    headers: {
      origin: origin ?? base,
      ...(cookie !== undefined && { cookie }),
      ...(action !== undefined && { 'next-action': action, accept: 'text/x-component' }),
    },
  })
}
