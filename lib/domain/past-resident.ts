/**
 * Who was in care at an instant of the past, as facts tell that are known at some later or the same time.
 * Promise: pure. What is dated after the instant does not count, whenever it was entered. Whoever was said ready in its last
 * stage is left out: it wants no place of care any more, and how long it then waits for its release is no part of healing.
 */
import type { PlannedStage, ResidentState } from './network-state.ts'

/** One line of who had it, from an instant until the next line. */
export type PastKeeping = {
  readonly keeper: ResidentState['keeper'] | 'nobody'
  readonly centreId: number | null
  readonly since: Date
}

/** A stage that began or an animal that was said ready in it. */
export type PastStageFact = { readonly kind: 'began' | 'ready'; readonly no: number; readonly at: Date }

/** An animal with all that is known of it; `keepings` in their order of time. */
export type PastAnimal = Pick<
  ResidentState,
  'id' | 'reference' | 'species' | 'age' | 'company' | 'isAlone' | 'arrivalId' | 'planIds' | 'admittedAt'
> & {
  readonly stages: PlannedStage[]
  readonly keepings: readonly PastKeeping[]
  readonly facts: readonly PastStageFact[]
  /** Vets' words that stand, the first said first. */
  readonly words: readonly NonNullable<ResidentState['word']>[]
}

/** Those whom a centre, a driver or a practice had; where exactly in a centre is not told. */
export function residentsAt(animals: readonly PastAnimal[], instant: Date): ResidentState[] {
  return animals.flatMap(animal => {
    const at = instant.getTime()
    const keeping = keepingAt(animal.keepings, at)
    if (keeping === undefined || keeping.keeper === 'nobody' || keeping.keeper === 'finder') return []
    const began = newest(animal.facts, 'began', at)
    const ready = newest(animal.facts, 'ready', at)
    const isThrough = ready !== null && ready.no === animal.stages.at(-1)?.no && ready.no === began?.no
    if (isThrough) return []
    const { keepings, facts, words, ...same } = animal
    const word = words.findLast(said => said.no === began?.no && said.at.getTime() <= at) ?? null
    const { keeper, centreId, since } = keeping
    return [{ ...same, keeper, centreId, enclosureId: null, since, began, ready, word }]
  })
}

/** The line that held at an instant. The last line is asked first: most animals are long gone. */
function keepingAt(keepings: readonly PastKeeping[], at: number): PastKeeping | undefined {
  return keepings.findLast(({ since }) => since.getTime() <= at)
}

/** Of the highest stage, as everywhere. */
function newest(
  facts: readonly PastStageFact[],
  kind: PastStageFact['kind'],
  at: number,
): ResidentState['began'] {
  let found: PastStageFact | undefined
  for (const fact of facts) {
    if (fact.kind !== kind || fact.at.getTime() > at) continue
    if (found === undefined || fact.no > found.no) found = fact
  }
  return found === undefined ? null : { no: found.no, at: found.at }
}
