/**
 * What each animal weighs when, and when it was last on the scales.
 * Promise: between two generated weighings a weight goes straight from one to the other; three digits, as scales show.
 */
import type { Weighing } from '../history/rows.ts'
import type { Casualty } from '../history/types.ts'

/** A good two days: who is weighed every third day may be weighed some hours earlier than the last time. */
const RECENT_MS = 60 * 3_600_000

export class Scales {
  readonly #weighings = new Map<Casualty, Weighing[]>()
  readonly #lastAt = new Map<Casualty, number>()

  constructor(weighings: readonly Weighing[]) {
    for (const one of weighings) {
      const known = this.#weighings.get(one.casualty)
      if (known === undefined) this.#weighings.set(one.casualty, [one])
      else known.push(one)
    }
  }

  /** Its weight in grams; undefined for an animal whose weight nobody knows. */
  weigh(casualty: Casualty, at: number): number | undefined {
    const known = this.#weighings.get(casualty) ?? []
    const before = known.findLast(one => one.at <= at) ?? known[0]
    if (before === undefined) return undefined
    this.#lastAt.set(casualty, at)
    const after = known.find(one => one.at > at)
    if (after === undefined || after === before) return before.grams
    const share = (at - before.at) / (after.at - before.at)
    return Number((before.grams + share * (after.grams - before.grams)).toPrecision(3))
  }

  wasOnLately(casualty: Casualty, at: number): boolean {
    const lastAt = this.#lastAt.get(casualty)
    return lastAt !== undefined && at - lastAt < RECENT_MS
  }
}
