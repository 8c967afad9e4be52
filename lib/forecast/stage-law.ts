/**
 * How and when one stage of care ends: sub-masses for each exit and whole day, from what was learned of it, else from
 * the plan's estimate.
 * Promise: masses and tails sum to 1 within 1e-12 and nothing is renormalised. Days are midnights passed since the
 * stage began (K). Refuses shares that do not sum to 1.
 */
import { type DayNumber, dateOfDay } from '#lib/domain/day.ts'
import { EXITS, type Exit, newByExit } from '#lib/domain/housing.ts'
import { dayTails, lognormalSigma } from '#lib/numerics/lognormal.ts'
import { learnedLaw } from './learned-law.ts'
import type { LengthEstimate, Readiness, StageEstimate } from './model.ts'

/**
 * `masses[exit][k]` = P(ends by this exit with K = k), k = 0 .. days-1; `tails[exit]` = P(ends by it later);
 * `staying[k]` = P(K > k).
 */
export type StageLaw = {
  readonly days: number
  readonly masses: Readonly<Record<Exit, Float64Array>>
  readonly tails: Readonly<Record<Exit, number>>
  readonly staying: Float64Array
}

/** Rounding allowed in shares that people typed, as in the plan's own rule; going onward takes what is left over. */
const SHARE_TOLERANCE = 1e-6
/** Tables of day tails are made in lengths of this many days, so that a longer stay seldom makes a new one. */
const TABLE_DAYS = 128
/** Length tables kept; beyond it all are dropped. 3 kB each. */
const TABLES_MAX = 4096
const tables = new Map<string, Float64Array>()

/**
 * The law of a stage entered on `entryDay`, for K < days. Sub-mass of an exit = its share times P(K = k) of its own
 * length; `onward` and `left` take the ready time, which a date gate moves by the calendar. With learned hazards the law is
 * theirs (learnedLaw): the gate's day, then the check.
 * Throws RangeError where shares do not sum to 1 or are negative, or a length is no length.
 */
export function stageLaw(estimate: StageEstimate, entryDay: DayNumber, days: number): StageLaw {
  const { ready, leastDays = 0, learned } = estimate
  if (learned !== undefined)
    return learnedLaw(learned, { opens: gateDelayOf(estimate, entryDay), leastDays }, days)
  const shares = sharesOf(estimate)
  const lag = lengthTails(ready.kind === 'length' ? ready.length : ready.lag, days)
  const delay = ready.kind === 'length' ? 0 : gateDelay(ready, entryDay, leastDays)
  const tailsOf: Record<Exit, (k: number) => number> = {
    onward: k => (k < delay || k < leastDays ? 1 : lag[k - delay]!),
    left: k => (k < delay ? 1 : lag[k - delay]!),
    died: k => died[k]!,
    euthanased: k => euthanased[k]!,
  }
  const died = lengthTails(estimate.died, days)
  const euthanased = lengthTails(estimate.euthanased, days)
  const staying = new Float64Array(days)
  const masses = newByExit(() => new Float64Array(days))
  const tails = newByExit(() => 0)
  for (const exit of EXITS) {
    const share = shares[exit]
    let before = 1
    for (let k = 0; k < days; k++) {
      const after = tailsOf[exit](k)
      masses[exit][k] = share * (before - after)
      staying[k] = staying[k]! + share * after
      before = after
    }
    tails[exit] = share * before
  }
  return { days, masses, tails, staying }
}

/**
 * P(K > k) of a length for k = 0 .. at least days-1. The same length always gives the same table, kept for the next
 * caller; do not change it.
 */
export function lengthTails(length: LengthEstimate, days: number): Float64Array {
  const key = `${length.medianDays}/${length.p90Days}`
  const kept = tables.get(key)
  if (kept && kept.length >= days) return kept
  if (tables.size >= TABLES_MAX) tables.clear()
  const made = dayTails(
    length.medianDays,
    lognormalSigma(length.medianDays, length.p90Days),
    Math.ceil((days + 1) / TABLE_DAYS) * TABLE_DAYS,
  )
  tables.set(key, made)
  return made
}

/** Days from entry until a stage's date gate lets pass, whatever check is booked; 0 for a stage without one. */
export function gateDelayOf({ ready }: StageEstimate, entryDay: DayNumber): number {
  return ready.kind === 'length' ? 0 : gateDelay(ready, entryDay)
}

/**
 * Days from entry until a date gate may be passed, before its lag: entry + minDays (or leastDays of a check, whole
 * days, the later) where that day lies in the open season, else the next opening day.
 */
export function gateDelay(
  gate: Extract<Readiness, { kind: 'date gate' }>,
  entryDay: DayNumber,
  leastDays = 0,
): number {
  const earliest = entryDay + Math.ceil(Math.max(gate.minDays, leastDays))
  const known = passes.get(gate) ?? new Map<DayNumber, DayNumber>()
  passes.set(gate, known)
  const pass = known.get(earliest) ?? firstPass(gate, earliest)
  known.set(earliest, pass)
  return pass - entryDay
}

/** Days on which gates first let pass, by the earliest day asked for: the calendar is slow to ask. */
const passes = new WeakMap<Readiness, Map<DayNumber, DayNumber>>()

function firstPass(gate: Extract<Readiness, { kind: 'date gate' }>, earliest: DayNumber): DayNumber {
  const year = Number(dateOfDay(earliest).slice(0, 4))
  // A season that runs over New Year began last year.
  for (const start of [year - 1, year, year + 1]) {
    const opens = dayInYear(start, gate.opens)
    const closes = gate.closes ?? '12-31'
    const ends = dayInYear(closes < gate.opens ? start + 1 : start, closes)
    if (earliest <= ends) return Math.max(earliest, opens)
  }
  throw new RangeError(`date gate needs month-day texts, got ${gate.opens} to ${gate.closes}`)
}

/** 29 February is 1 March in a common year. */
function dayInYear(year: number, monthDay: string): DayNumber {
  return Math.round(Date.UTC(year, Number(monthDay.slice(0, 2)) - 1, Number(monthDay.slice(3))) / 86_400_000)
}

/** The shares, onward as the rest of the others. Throws RangeError where that is not what the plan says. */
export function sharesOf({ shares }: StageEstimate): Record<Exit, number> {
  for (const exit of EXITS) {
    if (!(shares[exit] >= 0))
      throw new RangeError(`share of ${exit} needs a number of at least 0, got ${shares[exit]}`)
  }
  const rest = 1 - shares.died - shares.euthanased - shares.left
  if (!(Math.abs(rest - shares.onward) <= SHARE_TOLERANCE)) {
    throw new RangeError(`shares need a sum of 1, got ${1 - rest + shares.onward}`)
  }
  return { ...shares, onward: Math.max(0, rest) }
}
