/**
 * History cut into entries: what one person wrote down at one time. Facts of one arrival belong together; later facts
 * of an animal each have their own entry. An entry is made some minutes after what it tells of, and not before the one
 * that tells of what happened to the animal earlier.
 */
import type { Random } from '#lib/kernel/random.ts'
import type { Casualty, Change, StageMark } from './types.ts'

export type Fact = { readonly casualty: Casualty; readonly change: Change }
export type Mark = { readonly casualty: Casualty; readonly mark: StageMark }

export type Moment = {
  /** When it was entered. */
  readonly at: number
  /** Where whoever entered it works. */
  readonly centreId: number
  readonly facts: readonly Fact[]
  readonly marks: readonly Mark[]
  /** Animals that came with this entry. */
  readonly arrived: readonly Casualty[]
}

const MS_PER_MINUTE = 60_000
const DELAY_MIN_MAX = 25

/** All entries in the order in which they were made, none after now. */
export function listMoments(casualties: readonly Casualty[], random: Random, now: number): Moment[] {
  const byArrival = new Map<number, Casualty[]>()
  for (const casualty of casualties) {
    const same = byArrival.get(casualty.arrival.id)
    if (same === undefined) byArrival.set(casualty.arrival.id, [casualty])
    else same.push(casualty)
  }
  const entered = (at: number) => Math.min(now, at + Math.round(1 + random() * DELAY_MIN_MAX) * MS_PER_MINUTE)
  const moments: Moment[] = []
  for (const together of byArrival.values()) {
    const [first] = together
    if (first === undefined) continue
    const { at, centreId } = first.arrival
    const cameIn = entered(at)
    moments.push({
      at: cameIn,
      centreId,
      arrived: together,
      facts: together.flatMap(casualty =>
        casualty.changes.filter(change => change.at <= at).map(change => ({ casualty, change })),
      ),
      marks: together.flatMap(casualty =>
        casualty.marks.filter(mark => mark.at <= at).map(mark => ({ casualty, mark })),
      ),
    })
    for (const casualty of together) moments.push(...laterMoments(casualty, { at, cameIn }, entered))
  }
  return moments.sort((a, b) => a.at - b.at)
}

/** A drive and its end are written as they happen; a stage that begins with a move is written with it. */
function laterMoments(
  casualty: Casualty,
  arrival: { readonly at: number; readonly cameIn: number },
  entered: (at: number) => number,
): Moment[] {
  const instants = [...casualty.changes, ...casualty.marks].map(({ at }) => at).filter(at => at > arrival.at)
  let written = arrival.cameIn
  let centreId = casualty.arrival.centreId
  return [...new Set(instants)]
    .sort((a, b) => a - b)
    .map(at => {
      const changes = casualty.changes.filter(change => change.at === at)
      centreId = changes.find(change => change.centreId !== undefined)?.centreId ?? centreId
      written = Math.max(written, entered(at))
      return {
        at: written,
        centreId,
        arrived: [],
        facts: changes.map(change => ({ casualty, change })),
        marks: casualty.marks.filter(mark => mark.at === at).map(mark => ({ casualty, mark })),
      }
    })
}
