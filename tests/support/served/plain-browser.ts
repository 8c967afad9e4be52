/** A browser without JavaScript: keeps its cookies, follows no redirect by itself. */
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import { filled, formWith } from './plain-form.ts'

const PATIENCE_MS = 60_000

export type Answer = { readonly status: number; readonly to: string; readonly html: string }
type Headers = Readonly<Record<string, string>>

export class PlainBrowser {
  readonly cookies = new Map<string, string>()
  readonly #address: () => string

  /** The address is asked for at each request: a server that came back may have another. */
  constructor(address: () => string) {
    this.#address = address
  }

  get(path: string, headers: Headers = {}): Promise<Answer> {
    return this.#send(path, { method: 'GET' }, headers)
  }

  post(path: string, body: FormData | URLSearchParams, headers: Headers = {}): Promise<Answer> {
    return this.#send(path, { method: 'POST', body }, headers)
  }

  /** Through the sign-in form; true when it led on. */
  async signIn(email: string, password = DEMO_PASSWORD): Promise<boolean> {
    this.cookies.clear()
    const { status } = await this.trySignIn(email, password)
    return status === 303 && this.cookies.size > 0
  }

  /** The sign-in form as it is, with what else the browser says. */
  async trySignIn(
    email: string,
    password: string,
    headers: Headers = {},
    more: Headers = {},
  ): Promise<Answer> {
    const page = await this.get('/sign-in')
    const form = formWith(page.html, ['email', 'password'])
    return form === undefined
      ? page
      : this.post('/sign-in', filled(form, { email, password, ...more }), headers)
  }

  /** Opens an answer that goes on, such as a stream of events. */
  open(path: string): Promise<Response> {
    return this.#fetch(path, { method: 'GET' }, {})
  }

  async #send(path: string, init: RequestInit, headers: Headers): Promise<Answer> {
    const answer = await this.#fetch(path, init, headers)
    return { status: answer.status, to: answer.headers.get('location') ?? '', html: await answer.text() }
  }

  async #fetch(path: string, init: RequestInit, headers: Headers): Promise<Response> {
    const cookie = [...this.cookies].map(([name, value]) => `${name}=${value}`).join('; ')
    const answer = await fetch(new URL(path, this.#address()), {
      ...init,
      redirect: 'manual',
      headers: { cookie, origin: this.#address(), ...headers },
      signal: AbortSignal.timeout(PATIENCE_MS),
    })
    for (const set of answer.headers.getSetCookie()) {
      const [pair = ''] = set.split(';')
      const cut = pair.indexOf('=')
      this.cookies.set(pair.slice(0, cut), pair.slice(cut + 1))
    }
    return answer
  }
}
