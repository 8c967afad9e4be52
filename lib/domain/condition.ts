/**
 * Conditions, presenting reasons and findings, found by the plain words of a finder.
 * Promise: an animal may have several, and only what its class can have is offered.
 */
import type { ConditionKnowledge } from './knowledge.ts'
import { type Hit, search } from './search.ts'
import type { AnimalClass } from './species.ts'

export const QUARANTINES = ['none', 'screen', 'isolate'] as const
export type Quarantine = (typeof QUARANTINES)[number]

/** The average plan of a group, for an animal nobody can say more about. */
export const ANY_REASON = 'any-reason'

/** Skills that mean surgery: their operated plan is assumed until a vet decides. */
const OPERATING_SKILLS: readonly string[] = ['orthopaedics', 'soft-tissue']

/** Whether the condition usually goes to a surgeon. */
export function isUsuallyOperated(one: Pick<ConditionKnowledge, 'may_need_surgeon'>): boolean {
  return one.may_need_surgeon !== null && OPERATING_SKILLS.includes(one.may_need_surgeon)
}

type Findable = Pick<ConditionKnowledge, 'name' | 'words' | 'applies_to'>

/** The conditions of a class, in the order given; both classes when the animal is not known yet. */
export function conditionsFor<T extends Findable>(all: readonly T[], animalClass?: AnimalClass): T[] {
  return all.filter(
    one => animalClass === undefined || one.applies_to === 'both' || one.applies_to === animalClass,
  )
}

/** Conditions by a few of the finder's words, for the class of the animal where it is known. */
export function searchConditions<T extends Findable>(
  typed: string,
  all: readonly T[],
  animalClass?: AnimalClass,
  limit = 8,
): Hit<T>[] {
  return search(
    typed,
    conditionsFor(all, animalClass),
    one => [{ text: one.name, rank: 0 }, ...one.words.map(text => ({ text, rank: 0.25 }))],
    limit,
  )
}

/** The strictest of several answers to the question of quarantine; none where nothing is known. */
export function strictestQuarantine(all: readonly Pick<ConditionKnowledge, 'quarantine'>[]): Quarantine {
  return all.reduce<Quarantine>(
    (kept, one) => (QUARANTINES.indexOf(one.quarantine) > QUARANTINES.indexOf(kept) ? one.quarantine : kept),
    'none',
  )
}
