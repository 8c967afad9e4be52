/**
 * Steps of the fortnight side by side, as several people write things down at once.
 * Promise: no two that touch the same overlap, and those keep their order; one that may touch anything runs alone, in
 * its place; none begins more than some steps early. After one that fails none begins.
 */
import type { Step } from './live.ts'

/** So many at once keep this process and the database busy together on two cores. */
const WIDTH = 3
/** So many steps are looked at for one that can begin: what is entered stays about in its order. */
const AHEAD = 16
const ANYTHING = 'anything'

/** Runs steps that are in their order; throws what the first that fails throws, once those beside it have ended. */
export async function runInLanes(steps: readonly Step[]): Promise<void> {
  const lanes = new Lanes()
  for (const step of steps) await lanes.add(step)
  await lanes.end()
}

class Lanes {
  readonly #open = new Set<Promise<void>>()
  /** The last step that touches each thing. */
  readonly #lastOf = new Map<string, Promise<void>>()
  readonly #waiting: (() => void)[] = []
  #places = WIDTH
  #failure: { readonly thrown: unknown } | undefined

  async add({ at, touches, run }: Step): Promise<void> {
    while (this.#open.size >= AHEAD) await Promise.race(this.#open)
    const before =
      touches === undefined ? [...this.#open] : [ANYTHING, ...touches].map(one => this.#lastOf.get(one))
    const work = Promise.all(before)
      .then(() => this.#inPlace(() => run(new Date(at))))
      .finally(() => this.#open.delete(work))
    this.#open.add(work)
    for (const one of touches ?? [ANYTHING]) this.#lastOf.set(one, work)
  }

  async end(): Promise<void> {
    await Promise.all(this.#open)
    if (this.#failure !== undefined) throw this.#failure.thrown
  }

  async #inPlace(run: () => Promise<void>): Promise<void> {
    if (this.#places === 0) await new Promise<void>(done => this.#waiting.push(done))
    else this.#places--
    try {
      if (this.#failure === undefined) await run()
    } catch (thrown) {
      this.#failure ??= { thrown }
    }
    const next = this.#waiting.shift()
    if (next === undefined) this.#places++
    else next()
  }
}
