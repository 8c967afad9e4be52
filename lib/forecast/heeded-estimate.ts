/**
 * A stage of one animal as it ends with a vet's word about it, whether its law was learned or is the plan's.
 * Promise: what ended it before the word, its date gate and its booked check stay; a word that says what is known already
 * changes nothing. The hazards made have a key of their own, so that no other animal of the cell shares them.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { LearnedHazards } from '#lib/domain/stage-cell.ts'
import { VET_WEIGHT } from '#lib/domain/vet-word.ts'
import { newRemember, type Remember } from '#lib/kernel/remember.ts'
import { hazardsOfLaw } from './hazards.ts'
import type { StageEstimate } from './model.ts'
import { gateDelayOf, stageLaw } from './stage-law.ts'
import { heeded, type VetWord } from './vet-word.ts'

/** Days over which a plan's law is told day by day: the longest that anything learned reaches. */
const PLAN_DAYS = 1536
/** Said to be ready already: in the middle of the day it is spoken of. */
const AT_ONCE = 0.5

/** Laws of plans and heeded hazards of one law that are kept: each reading of the network asks for them anew. */
const PLANS_MAX = 128
const WORDS_MAX = 64
const plans = newRemember<LearnedHazards>(PLANS_MAX)
const words = new WeakMap<LearnedHazards, Remember<LearnedHazards>>()

/** `age` in midnights since it entered; below 0 what was said before that, which counts from its day all the same. */
export function heededEstimate(
  estimate: StageEstimate,
  { age, inDays }: VetWord,
  enteredOn: DayNumber,
): StageEstimate {
  const free = estimate.learned === undefined ? withCheckInGate(estimate) : estimate
  const opens = gateDelayOf(free, enteredOn)
  const learned = free.learned ?? planned(free, enteredOn, opens)
  const word = { age: Math.max(0, age), inDays: Math.max(AT_ONCE, inDays + Math.min(0, age)) }
  return { ...free, learned: heard(learned, word, opens) }
}

function heard(learned: LearnedHazards, word: VetWord, opens: number): LearnedHazards {
  const known = words.get(learned) ?? newRemember<LearnedHazards>(WORDS_MAX)
  words.set(learned, known)
  const key = [learned.key, word.age, word.inDays, opens].join(' ')
  return known(key, () => ({ ...learned, passes: heeded(learned, word, VET_WEIGHT, opens).passes, key }))
}

/** A check delays the lag of a plan's date gate, so there it becomes part of the gate. */
function withCheckInGate(estimate: StageEstimate): StageEstimate {
  const { leastDays = 0, ready, ...rest } = estimate
  if (ready.kind === 'length') return estimate
  return { ...rest, ready: { ...ready, minDays: Math.max(ready.minDays, leastDays) } }
}

/** The plan's own law, without its check, as hazards. */
function planned(estimate: StageEstimate, enteredOn: DayNumber, opens: number): LearnedHazards {
  const { leastDays: _booked, ...free } = estimate
  return plans(JSON.stringify([free, opens]), () => ({
    key: 'plan',
    run: 'plan',
    ...hazardsOfLaw(stageLaw(free, enteredOn, PLAN_DAYS + opens), opens),
  }))
}
