/**
 * The way through the stages of a path, as probabilities by day: a discrete-time semi-Markov chain.
 * Promise: one animal's probabilities over stages and endings sum to 1 on every day; an animal already in a stage is
 * conditioned on its days so far by multiplying hazards, never by dividing survivals. Axis: whole days from a start.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { type Exit, newByExit } from '#lib/domain/housing.ts'
import { delayBy } from '#lib/numerics/convolution.ts'
import type { Work } from '#lib/numerics/work.ts'
import { learnedOnward, type Passed, passLearnedGate } from './learned-law.ts'
import type { PathStage, Readiness, StageEstimate } from './model.ts'
import { gateDelay, gateDelayOf, lengthTails, type StageLaw, sharesOf, stageLaw } from './stage-law.ts'

/** One stage on the axis: `enters[d]` on that day, `present[d]` at the midnight that ends it, `wasIn` at the one before the axis. */
export type StageWalk = {
  readonly enters: Float64Array
  readonly present: Float64Array
  readonly wasIn: number
}

/** What remains of the stage an animal is in: going onward by day, and the chance that it ever does. */
export type Residual = {
  readonly onward: Float64Array
  readonly present: Float64Array
  readonly onwardEver: number
}

/** Laws of stages that do not depend on the date of entry, by the estimate they were made from. */
const laws = new WeakMap<StageEstimate, StageLaw>()

/** Laws are made in lengths of this many days, so that a longer stay seldom makes a new one. */
const LAW_DAYS = 128

/** The law of a stage without a date gate, for at least `days` days and one more. The same object while it suffices. */
export function undatedLaw(estimate: StageEstimate, days: number): StageLaw {
  const kept = laws.get(estimate)
  if (kept && kept.days > days) return kept
  const made = stageLaw(estimate, 0, Math.ceil((days + 1) / LAW_DAYS) * LAW_DAYS)
  laws.set(estimate, made)
  return made
}

/**
 * The rest of a stage entered `age` days before the axis starts, given that it has not ended in those days.
 * Each day's hazard is the law's own, from `age` on, multiplied forward; the first is 1-(1-h)^firstDayShare, split
 * among exits as the law splits it. Where the law has nothing left the stage ends at once, by its shares, or as what was
 * learned has the rest end.
 */
export function residualOf(
  estimate: StageEstimate,
  entryDay: DayNumber,
  age: number,
  days: number,
  firstDayShare: number,
): Residual {
  const law = lawFrom(estimate, entryDay, age + days)
  const present = stillIn(law, age, days, firstDayShare)
  const onward = exitsBy('onward', estimate, law, age, present)
  let onwardEver = 0
  for (let i = 0; i < days; i++) onwardEver += onward[i]!
  const last = age + days - 1
  if (law.staying[last]! > 0) onwardEver += (present[days - 1]! * onwardAfter(law, last)) / law.staying[last]!
  return { present, onward, onwardEver }
}

/** All endings of such a stage by day; arguments as residualOf. */
export function residualExits(
  estimate: StageEstimate,
  entryDay: DayNumber,
  age: number,
  days: number,
  firstDayShare: number,
): Record<Exit, Float64Array> {
  const law = lawFrom(estimate, entryDay, age + days)
  const present = stillIn(law, age, days, firstDayShare)
  return newByExit(exit => exitsBy(exit, estimate, law, age, present))
}

function lawFrom(estimate: StageEstimate, entryDay: DayNumber, days: number): StageLaw {
  return estimate.ready.kind === 'length' ? undatedLaw(estimate, days) : stageLaw(estimate, entryDay, days)
}

/** P(still in the stage at each midnight). */
function stillIn({ staying }: StageLaw, age: number, days: number, firstDayShare: number): Float64Array {
  const present = new Float64Array(days)
  let alive = 1
  let before = age === 0 ? 1 : staying[age - 1]!
  for (let i = 0; i < days; i++) {
    const after = staying[age + i]!
    const kept = before > 0 ? after / before : 0
    alive *= i === 0 ? kept ** firstDayShare : kept
    present[i] = alive
    before = after
  }
  return present
}

/** Each day's losses that are this exit. */
function exitsBy(
  exit: Exit,
  estimate: StageEstimate,
  { staying, masses }: StageLaw,
  age: number,
  present: Float64Array,
): Float64Array {
  const mass = masses[exit]
  const rest = (estimate.learned?.beyond ?? estimate.shares)[exit]
  const exits = new Float64Array(present.length)
  let before = age === 0 ? 1 : staying[age - 1]!
  let alive = 1
  for (let i = 0; i < present.length; i++) {
    const after = staying[age + i]!
    const ended = before - after
    const part = ended > 0 ? mass[age + i]! / ended : before > 0 ? 0 : rest
    exits[i] = (alive - present[i]!) * part
    alive = present[i]!
    before = after
  }
  return exits
}

/** P(goes onward with K > k) under the law. */
function onwardAfter(law: StageLaw, k: number): number {
  let sum = law.tails.onward
  for (let j = law.days - 1; j > k; j--) sum += law.masses.onward[j]!
  return sum
}

/**
 * Carries entries through one stage: who is present at each midnight, and who goes onward on each day.
 * `enters` may be a probability or an expected number by day of the axis, which starts on `axisStart`.
 */
export function passStage(
  estimate: StageEstimate,
  enters: Float64Array,
  axisStart: DayNumber,
  work: Work,
): { present: Float64Array; onward: Float64Array } {
  const n = enters.length
  const present = new Float64Array(n)
  const onward = new Float64Array(n)
  if (estimate.ready.kind === 'date gate') {
    const passed = passLearned(estimate, enters, axisStart, ['onward'], work)
    if (passed !== undefined) return { present: passed.present, onward: passed.ends.onward }
    passGate(estimate, estimate.ready, enters, axisStart, present, onward, work)
    return { present, onward }
  }
  const law = undatedLaw(estimate, n)
  delayBy(enters, law.staying, present, work)
  delayBy(enters, law.masses.onward, onward, work)
  return { present, onward }
}

/** As passStage for a date gate that was learned of, by the exits asked for; undefined for other stages. */
export function passLearned(
  { ready, learned, leastDays = 0 }: StageEstimate,
  enters: Float64Array,
  axisStart: DayNumber,
  asked: readonly Exit[],
  work: Work,
): Passed | undefined {
  if (learned === undefined || ready.kind === 'length') return undefined
  const least = Math.ceil(ready.minDays)
  const opensAfter = (e: number) => gateDelay(ready, axisStart + e)
  return passLearnedGate(learned, enters, { least, leastDays, opensAfter }, asked, work)
}

/**
 * P(ever goes onward) of an animal that ever enters with probability `reach`, on the days of an axis as `enters` has it;
 * what enters after the axis does so as on its last day.
 */
export function onwardEver(
  estimate: StageEstimate,
  { enters, axisStart, reach }: { enters: Float64Array; axisStart: DayNumber; reach: number },
): number {
  const { shares, ready, learned } = estimate
  if (learned === undefined) return reach * shares.onward
  if (ready.kind === 'length') return reach * learnedOnward(learned, 0)
  const everFrom = (e: number) => learnedOnward(learned, gateDelayOf(estimate, axisStart + e))
  let within = 0
  let onward = 0
  for (let e = 0; e < enters.length; e++) {
    if (enters[e] === 0) continue
    within += enters[e]!
    onward += enters[e]! * everFrom(e)
  }
  return onward + Math.max(0, reach - within) * everFrom(enters.length - 1)
}

/** As passStage for a date gate: entries gather at the day their gate lets them pass, and go on from there by the lag. */
function passGate(
  estimate: StageEstimate,
  gate: Extract<Readiness, { kind: 'date gate' }>,
  enters: Float64Array,
  axisStart: DayNumber,
  present: Float64Array,
  onward: Float64Array,
  work: Work,
): void {
  const n = enters.length
  const shares = sharesOf(estimate)
  const died = lengthTails(estimate.died, n + 1)
  const euthanased = lengthTails(estimate.euthanased, n + 1)
  const lag = lengthTails(gate.lag, n + 1)
  const dying = new Float64Array(n + 1)
  const going = new Float64Array(n + 1)
  const lagMass = new Float64Array(n + 1)
  for (let k = 0; k <= n; k++) {
    dying[k] = shares.died * died[k]! + shares.euthanased * euthanased[k]!
    going[k] = (shares.onward + shares.left) * lag[k]!
    lagMass[k] = shares.onward * ((k === 0 ? 1 : lag[k - 1]!) - lag[k]!)
  }
  const atGate = new Float64Array(n)
  let waiting = 0
  const through = new Float64Array(n)
  for (let e = 0; e < n; e++) {
    waiting += enters[e]!
    const opens = enters[e] === 0 ? n : e + gateDelay(gate, axisStart + e, estimate.leastDays)
    if (opens < n) through[opens] = through[opens]! + enters[e]!
    atGate[e] = waiting
  }
  let passed = 0
  for (let d = 0; d < n; d++) {
    passed += through[d]!
    present[d] = (shares.onward + shares.left) * Math.max(0, atGate[d]! - passed)
  }
  delayBy(enters, dying, present, work)
  delayBy(through, going, present, work)
  delayBy(through, lagMass, onward, work)
}

/**
 * Carries entries through the stages from `first` on: one StageWalk a stage, in order. The last stage's onward is
 * release and is not carried further.
 */
export function walkFrom(
  stages: readonly PathStage[],
  first: number,
  enters: Float64Array,
  axisStart: DayNumber,
  work: Work,
): StageWalk[] {
  const walks: StageWalk[] = []
  let arriving = enters
  for (let s = first; s < stages.length; s++) {
    const { present, onward } = passStage(stages[s]!.estimate, arriving, axisStart, work)
    walks.push({ enters: arriving, present, wasIn: 0 })
    arriving = onward
  }
  return walks
}
