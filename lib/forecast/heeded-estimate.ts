/**
 * A stage of one animal as it ends with a vet's word about it, whether its law was learned or is the plan's.
 * Promise: what ended it before the word, its date gate and its booked check stay; a word that says what is known already
 * changes nothing. The hazards made have a key of their own, so that no other animal of the cell shares them.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { VET_WEIGHT } from '#lib/domain/vet-word.ts'
import { hazardsOfLaw } from './hazards.ts'
import type { StageEstimate } from './model.ts'
import { gateDelayOf, stageLaw } from './stage-law.ts'
import { heeded, type VetWord } from './vet-word.ts'

/** Days over which a plan's law is told day by day: the longest that anything learned reaches. */
const PLAN_DAYS = 1536
/** Said to be ready already: in the middle of the day it is spoken of. */
const AT_ONCE = 0.5

/** `age` in midnights since it entered; below 0 what was said before that, which counts from its day all the same. */
export function heededEstimate(
  estimate: StageEstimate,
  { age, inDays }: VetWord,
  enteredOn: DayNumber,
): StageEstimate {
  const from = estimate.learned === undefined ? withPlanned(estimate, enteredOn) : estimate
  const { learned } = from
  if (learned === undefined) return estimate
  const word = { age: Math.max(0, age), inDays: Math.max(AT_ONCE, inDays + Math.min(0, age)) }
  const opens = gateDelayOf(from, enteredOn)
  const { passes } = heeded(learned, word, VET_WEIGHT, opens)
  return {
    ...from,
    learned: { ...learned, passes, key: [learned.key, word.age, word.inDays, opens].join(' ') },
  }
}

/** The plan's own law as hazards. A check delays the lag of its date gate, as the plan has it, so it becomes part of the gate. */
function withPlanned(estimate: StageEstimate, enteredOn: DayNumber): StageEstimate {
  const { leastDays = 0, ready, ...rest } = estimate
  const isByDate = ready.kind === 'date gate'
  const free: StageEstimate = {
    ...rest,
    ready: isByDate ? { ...ready, minDays: Math.max(ready.minDays, leastDays) } : ready,
  }
  const opens = gateDelayOf(free, enteredOn)
  const learned = {
    key: 'plan',
    run: 'plan',
    ...hazardsOfLaw(stageLaw(free, enteredOn, PLAN_DAYS + opens), opens),
  }
  return isByDate || leastDays === 0 ? { ...free, learned } : { ...free, leastDays, learned }
}
