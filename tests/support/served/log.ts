/** What the driver sent, and what it was told: only what was acknowledged is owed. */
import { faultWords } from '#lib/words/failure.ts'
import type { Answer } from './plain-browser.ts'

export const KINDS = [
  'call taken',
  'sheet kept',
  'facts kept',
  'option taken',
  'arrival recorded',
  'outcome recorded',
  'practice asked',
  'answer recorded',
  'note',
  'weight',
  'call-back promised',
  'call-back made',
] as const
export type Kind = (typeof KINDS)[number]

/** `nothing`: no answer, or one that says that it may or may not have been kept. */
export type Said = 'yes' | 'no' | 'nothing'
export type Write = { readonly kind: Kind; readonly key: string; said: Said }

export class Log {
  readonly writes: Write[] = []
  #drawn = 0
  readonly #waiting: Kind[] = []

  /** Sent, and not answered yet. */
  get waiting(): readonly Kind[] {
    return this.#waiting
  }

  /** Words that nothing else in the world has; later ones sort later. */
  words(kind: Kind): string {
    this.#drawn++
    return `${kind} ${String(this.#drawn).padStart(7, '0')}`
  }

  /** The same for grams, to the hundredth. */
  grams(): string {
    this.#drawn++
    return (100 + this.#drawn / 100).toFixed(2)
  }

  /** Sends a form. What it is known by may come only with the answer. */
  async send(
    kind: Kind,
    key: string | ((answer: Answer) => string),
    send: () => Promise<Answer>,
  ): Promise<Answer> {
    const write = { kind, key: typeof key === 'string' ? key : '', said: 'nothing' as Said }
    const at = this.writes.push(write) - 1
    this.#waiting.push(kind)
    const answer = await send().finally(() => this.#waiting.splice(this.#waiting.indexOf(kind), 1))
    const isKept = answer.status === 303 && !answer.to.includes('/sign-in')
    if (isKept || (kind === 'sheet kept' && answer.status === 200)) {
      this.writes[at] = { kind, key: typeof key === 'string' ? key : key(answer), said: 'yes' }
    } else if (answer.status < 500 && !isFault(answer)) write.said = 'no'
    return answer
  }

  count(said: Said, kind?: Kind): number {
    return this.writes.filter(one => one.said === said && (kind === undefined || one.kind === kind)).length
  }

  keys(said: Said, kind: Kind): string[] {
    return this.writes.flatMap(one =>
      one.said === said && one.kind === kind && one.key !== '' ? [one.key] : [],
    )
  }
}

/** A form that comes back because the database went says so on a page of status 200. */
function isFault({ html }: Answer): boolean {
  return html.includes(faultWords('').say)
}
