/** A browser without JavaScript: keeps its cookies, follows no redirect by itself. */
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import { filled, formWith } from './plain-form.ts'

const PATIENCE_MS = 60_000

export type Answer = { readonly status: number; readonly to: string; readonly html: string }

export class PlainBrowser {
  readonly #cookies = new Map<string, string>()
  readonly #address: () => string

  /** The address is asked for at each request: a server that came back may have another. */
  constructor(address: () => string) {
    this.#address = address
  }

  get(path: string): Promise<Answer> {
    return this.#send(path, { method: 'GET' })
  }

  post(path: string, body: FormData): Promise<Answer> {
    return this.#send(path, { method: 'POST', body })
  }

  /** Through the sign-in form; true when it led on. */
  async signIn(email: string): Promise<boolean> {
    this.#cookies.clear()
    const { html } = await this.get('/sign-in')
    const form = formWith(html, ['email', 'password'])
    if (form === undefined) return false
    const { status } = await this.post('/sign-in', filled(form, { email, password: DEMO_PASSWORD }))
    return status === 303 && this.#cookies.size > 0
  }

  async #send(path: string, init: RequestInit): Promise<Answer> {
    const cookie = [...this.#cookies].map(([name, value]) => `${name}=${value}`).join('; ')
    const answer = await fetch(`${this.#address()}${path}`, {
      ...init,
      redirect: 'manual',
      headers: { cookie, origin: this.#address() },
      signal: AbortSignal.timeout(PATIENCE_MS),
    })
    for (const set of answer.headers.getSetCookie()) {
      const [pair = ''] = set.split(';')
      const cut = pair.indexOf('=')
      this.#cookies.set(pair.slice(0, cut), pair.slice(cut + 1))
    }
    return { status: answer.status, to: answer.headers.get('location') ?? '', html: await answer.text() }
  }
}
