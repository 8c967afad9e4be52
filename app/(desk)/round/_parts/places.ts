import type { PlanPlace } from '#app/_ui/plan/plan-data.ts'
import type { Round, RoundAnimal, RoundEnclosure } from '#lib/service/round.ts'
import { paths } from '#lib/web/paths.ts'
import {
  dryingWords,
  freeNote,
  heldWords,
  leavesAt,
  ROUND,
  readyWords,
  shutWords,
  untilAbout,
} from '#lib/words/round.ts'
import { shortWords } from '#lib/words/who-is-where.ts'

type Clock = Pick<Round, 'today' | 'zone'> & {
  readonly now: Date
  /** Where a tap on an animal leads: to its line, or to its card for whoever only reads. */
  readonly hrefOf: (animal: Pick<RoundAnimal, 'id' | 'reference'>) => string
}

/** The places of an enclosure as the plan draws them: who is in, who is expected, what is free or not to be used. */
export function placesOf(enclosure: RoundEnclosure, clock: Clock): PlanPlace[] {
  const { inside, held, closed, dryUntil, free } = enclosure
  const { now, zone } = clock
  const found: PlanPlace[] = [
    ...inside.map(animal => animalPlace(animal, clock)),
    ...held.map(
      (hold): PlanPlace => ({
        kind: 'held',
        ...(hold.species !== null && { species: hold.species }),
        ...(hold.reference !== null && {
          reference: hold.reference,
          href: paths.casualty(hold.reference),
        }),
        text: heldWords(hold.expectedAt, hold.startsAt, now, zone),
      }),
    ),
  ]
  if (closed !== null) return [...found, { kind: 'shut', text: shutWords(closed.reason, closed.until, zone) }]
  if (dryUntil !== null) return [...found, { kind: 'cleaning', text: dryingWords(dryUntil, zone) }]
  if (free === 0) return found
  const note = freeNote(free, found.length === 0)
  return [...found, { kind: 'free', ...(note !== undefined && { note }) }]
}

/** One animal on its perch. */
export function animalPlace(animal: RoundAnimal, { today, zone, hrefOf }: Clock): PlanPlace {
  const { ahead, short } = animal
  return {
    kind: 'in',
    species: animal.species,
    reference: animal.reference,
    href: hrefOf(animal),
    until: untilOf(animal, zone),
    ...(ahead !== undefined && { ribbon: { ...ahead, todayDay: today, checks: [] } }),
    ...(short !== null
      ? { note: shortWords(short), isGrave: true }
      : animal.isAlone && { note: ROUND.alone }),
  }
}

/** Until when it needs this place, as far as anybody can say. */
export function untilOf({ leavesAt: at, isReady, ahead }: RoundAnimal, zone: string): string {
  if (at !== null) return leavesAt(at, zone)
  const [stage, next] = ahead?.stages ?? []
  if (isReady) return readyWords(next === undefined && (stage?.isHere ?? true))
  return stage === undefined ? '' : untilAbout(stage.end.median, stage.isEndKnown)
}
