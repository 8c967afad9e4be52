/** What the steps of the fortnight share: who is who in the database by now, where each animal is, what was counted. */
import type pg from 'pg'
import type { PersonActor } from '#lib/authz/actor.ts'
import type { Trade } from '#lib/domain/trade.ts'
import type { Random } from '#lib/kernel/random.ts'
import type { Casualty } from '../history/types.ts'
import { COORDINATOR, carerAt } from './actors.ts'

/** One thing that somebody did, at the time at which it was entered. */
export type Step = {
  readonly at: number
  readonly run: (now: Date) => Promise<void>
  /** All that it reads or changes, by the names below; left out where that may be anything. */
  readonly touches?: readonly string[]
}

export const animalKey = ({ id }: Casualty) => `animal ${id}`
export const centreKey = (centreId: number) => `centre ${centreId}`
/** Whatever draws from the one stream of chance. */
export const CHANCE_KEY = 'chance'

export class Live {
  readonly client: pg.ClientBase
  /** As the desk knows it, with the numbers that the database gave. */
  readonly trade: Trade
  readonly random: Random
  readonly counts: Record<string, number> = {}
  readonly #ids = new Map<number, number>()
  readonly #generated = new Map<number, Casualty>()
  readonly #centres = new Map<number, number>()
  #asked: Promise<unknown> = Promise.resolve()

  constructor(client: pg.ClientBase, trade: Trade, random: Random) {
    this.client = client
    this.trade = trade
    this.random = random
  }

  count(what: string): void {
    this.counts[what] = (this.counts[what] ?? 0) + 1
  }

  /** The generated animal has this number in the database. */
  know(casualty: Casualty, id: number): void {
    this.#ids.set(casualty.id, id)
    this.#generated.set(id, casualty)
  }

  /** The generated animal that has this number in the database. */
  generated(id: number): Casualty | undefined {
    return this.#generated.get(id)
  }

  has(casualty: Casualty): boolean {
    return this.#ids.has(casualty.id)
  }

  idOf({ id }: Casualty): number {
    const found = this.#ids.get(id)
    if (found === undefined) throw new RangeError(`casualty needs to have come in, got ${id}`)
    return found
  }

  /** It is at a centre, or on the road. */
  isAt(casualty: Casualty, centreId: number | undefined): void {
    if (centreId === undefined) this.#centres.delete(casualty.id)
    else this.#centres.set(casualty.id, centreId)
  }

  /** Who writes down what happens to it now: a carer where it is, the desk while it is on the road. */
  writerOf({ id }: Casualty): PersonActor {
    const centreId = this.#centres.get(id)
    return centreId === undefined ? COORDINATOR : carerAt(centreId)
  }

  /** Numbers that a query finds, in its order; the connection takes one query at a time. */
  ids(sql: string, values: readonly unknown[]): Promise<number[]> {
    const asked = this.#asked.then(() => this.client.query<{ id: number }>(sql, [...values]))
    this.#asked = asked.catch(() => undefined)
    return asked.then(({ rows }) => rows.map(({ id }) => id))
  }
}
