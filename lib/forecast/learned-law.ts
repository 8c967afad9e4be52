/**
 * How a stage ends by what was learned of it: the law of one animal, and whole days of entries through a date gate.
 * Promise: died, euthanased and left count from entry, going onward from the day the gate lets pass; a booked check has
 * whoever was fit earlier wait for it. Masses and tails sum to 1 within 1e-12; nothing is renormalised.
 */
import { type Exit, newByExit, UNBARRED } from '#lib/domain/housing.ts'
import type { LearnedHazards } from '#lib/domain/stage-cell.ts'
import { delayBy } from '#lib/numerics/convolution.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import type { Work } from '#lib/numerics/work.ts'
import { lawOfHazards, waitingFor } from './hazards.ts'
import type { StageLaw } from './stage-law.ts'

/** When an animal may go on, in days since it entered: its date gate (0 without one) and its booked check. */
export type Gates = { readonly opens: number; readonly leastDays: number }

/**
 * The learned law of an animal with these gates, for K < days. What has not ended by the last learned day ends by
 * `beyond`; where more days are asked for, they keep the last learned day's chance to end.
 */
export function learnedLaw(learned: LearnedHazards, { opens, leastDays }: Gates, days: number): StageLaw {
  const fit = lawOfHazards(learned, learned.beyond, opens, Math.max(days, learned.days))
  const law = leastDays > opens ? waitingFor(fit, d => d >= leastDays) : fit
  if (law.days === days) return law
  return {
    days,
    masses: newByExit(exit => law.masses[exit].slice(0, days)),
    staying: law.staying.slice(0, days),
    tails: newByExit(exit => law.tails[exit] + neumaierSum(law.masses[exit].subarray(days))),
  }
}

/** Chances ever to go onward, by the day the gate opens: a check delays it and changes none. */
const evers = new WeakMap<LearnedHazards, Map<number, number>>()

/** P(ever goes onward) of an animal whose date gate opens `opens` days after it entered. */
export function learnedOnward(learned: LearnedHazards, opens: number): number {
  const known = evers.get(learned) ?? new Map<number, number>()
  evers.set(learned, known)
  const ever = known.get(opens) ?? learnedLaw(learned, { opens, leastDays: 0 }, 0).tails.onward
  known.set(opens, ever)
  return ever
}

/** Who is in a stage at each midnight of an axis, and who ends it by the exits asked for on each day. */
export type Passed = { readonly present: Float64Array; readonly ends: Readonly<Record<Exit, Float64Array>> }

/**
 * Carries entries by day of an axis through a stage whose date gate lets those of day e pass `opensAfter(e)` days later,
 * and never sooner than `least` days. Entries of an open gate have one law; those that wait for one opening day share the
 * chances that follow it, so they are carried together, unless a check is later or they outlast what was learned. Only
 * the exits in `asked` are counted.
 */
export function passLearnedGate(
  learned: LearnedHazards,
  enters: Float64Array,
  gate: { readonly least: number; readonly leastDays: number; readonly opensAfter: (e: number) => number },
  asked: readonly Exit[],
  work: Work,
): Passed {
  const n = enters.length
  const { least, leastDays, opensAfter } = gate
  const passed = { present: new Float64Array(n), ends: newByExit(() => new Float64Array(n)) }
  const open = new Float64Array(n)
  const ofOpening = new Map<number, Float64Array>()
  for (let e = 0; e < n; e++) {
    if (enters[e] === 0) continue
    const opens = opensAfter(e)
    if (opens === least) open[e] = enters[e]!
    else if (leastDays > opens || n - e > learned.days) {
      addLaw(learnedLaw(learned, { opens, leastDays }, n - e), enters[e]!, e, asked, passed)
    } else {
      const group = ofOpening.get(e + opens) ?? new Float64Array(n)
      ofOpening.set(e + opens, group)
      group[e] = enters[e]!
    }
  }
  const law = learnedLaw(learned, { opens: least, leastDays }, n + 1)
  delayBy(open, law.staying, passed.present, work)
  for (const exit of asked) delayBy(open, law.masses[exit], passed.ends[exit], work)
  const shut = lawOfHazards(learned, learned.beyond, n + 1, n + 1)
  for (const [openDay, group] of ofOpening) throughOpening(learned, shut, group, openDay, asked, passed, work)
  return passed
}

/** One day's entries by their own law. */
function addLaw(law: StageLaw, weight: number, from: number, asked: readonly Exit[], into: Passed): void {
  for (let k = 0; k < law.days; k++) {
    const d = from + k
    into.present[d] = into.present[d]! + weight * law.staying[k]!
    for (const exit of asked) into.ends[exit][d] = into.ends[exit][d]! + weight * law.masses[exit][k]!
  }
}

/**
 * Entries whose gate opens on day `openDay` of the axis: until then by `shut`, the law of those who cannot go on; from
 * then on each day keeps the same share of all of them.
 */
function throughOpening(
  learned: LearnedHazards,
  shut: StageLaw,
  enters: Float64Array,
  openDay: number,
  asked: readonly Exit[],
  { present, ends }: Passed,
  work: Work,
): void {
  const n = enters.length
  const there = new Float64Array(n)
  delayBy(enters, shut.staying, there, work)
  const barred = UNBARRED.filter(exit => asked.includes(exit))
  const gone = barred.map(exit => {
    const byDay = new Float64Array(n)
    delayBy(enters, shut.masses[exit], byDay, work)
    return { into: ends[exit], byDay }
  })
  let unpassed = 1
  for (let d = 0; d < n; d++) {
    const passes = d < openDay ? 0 : learned.passes[Math.min(d - openDay, learned.days - 1)]!
    for (const { into, byDay } of gone) into[d] = into[d]! + byDay[d]! * unpassed
    ends.onward[d] = ends.onward[d]! + there[d]! * unpassed * passes
    unpassed *= 1 - passes
    present[d] = present[d]! + there[d]! * unpassed
  }
}
