/**
 * From recorded stays to what is counted: who was in the stage on each of its days, and who ended how.
 * Promise: a stay counts one trial a day from the first it was watched on to the day it ended or was last known to be
 * in the stage; going on has trials only on days when the animal's gate could be passed (engine, section 1). An end
 * between two dates counts in parts. Days past the horizon are left out.
 */

import { type DayNumber, weekdayOf } from '#lib/domain/day.ts'
import { type Exit, UNBARRED } from '#lib/domain/housing.ts'
import type { Hazards } from '#lib/forecast/hazards.ts'
import { type Evidence, noEvidence } from './evidence.ts'
import { daysOfStay, opensAfter, type RecordedStay } from './stay.ts'

/** The chance that a stay ended on day `first` + i since entry; sums to 1. One number where the day is known. */
export type ExitDays = { readonly by: Exit; readonly first: number; readonly chances: readonly number[] }

/**
 * Whether the animal could have gone on, on day d since it entered: not before its check or its date gate, and only
 * on the weekdays of its clinic; not after it was last tested.
 */
export function couldPass({ gate, enteredOn }: RecordedStay, d: number): boolean {
  if (gate === undefined) return true
  const day = enteredOn + d
  if (day < Math.max(gate.check ?? day, gate.opens ?? day) || day > (gate.tested ?? day)) return false
  return gate.weekdays === undefined || gate.weekdays.includes(weekdayOf(day))
}

/**
 * The day of a stay's end as known on `asOf`, or null where it had not ended. Between two dates the day is uncertain in
 * proportion to the chance to be in the stage until then and to leave it so, by `hazards`; evenly without them.
 * A day on which the gate could not be passed gets nothing, unless no day is left: what was recorded happened.
 */
export function exitDays(stay: RecordedStay, asOf: DayNumber, hazards?: Hazards): ExitDays | null {
  const { until, exit } = daysOfStay(stay, asOf)
  if (exit === null) return null
  const { by, earliest } = exit
  if (earliest === until) return { by, first: until, chances: [1] }
  const weights: number[] = []
  let alive = 1
  for (let d = earliest; d <= until; d++) {
    const isOpen = couldPass(stay, d)
    const chances = hazards === undefined ? null : dayChances(hazards, d, opensAfter(stay), isOpen)
    weights.push(alive * (chances?.[by] ?? (by === 'onward' && !isOpen ? 0 : 1)))
    alive *= chances?.stay ?? 1
  }
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  const chances = weights.map(weight => (total > 0 ? weight / total : 1 / weights.length))
  return { by, first: earliest, chances }
}

/** The chances of one day for an animal that is in the stage; beyond the horizon those of the last day. */
function dayChances(
  hazards: Hazards,
  day: number,
  opens: number,
  isOpen: boolean,
): Record<Exit | 'stay', number> {
  const d = Math.min(day, hazards.days - 1)
  const kept = 1 - hazards.died[d]! - hazards.euthanased[d]! - hazards.left[d]!
  const onward = isOpen ? kept * hazards.passes[Math.min(Math.max(0, day - opens), hazards.days - 1)]! : 0
  return {
    died: hazards.died[d]!,
    euthanased: hazards.euthanased[d]!,
    left: hazards.left[d]!,
    onward,
    stay: kept - onward,
  }
}

/** A stay, and how many count as it does. */
export type CountedStay = { readonly stay: RecordedStay; readonly times: number }

/**
 * The evidence of stays as known on the morning of `asOf`, over `days` days of a stage. Ends between two dates are
 * spread by `hazards` where given, else evenly. Unit: animals. Throws RangeError as daysOfStay does.
 */
export function trialsOf(
  stays: readonly RecordedStay[],
  asOf: DayNumber,
  days: number,
  hazards?: Hazards,
): Evidence {
  return trialsOfCounted(
    stays.map(stay => ({ stay, times: 1 })),
    asOf,
    days,
    hazards,
  )
}

/** The same of stays that stand for several. */
export function trialsOfCounted(
  stays: readonly CountedStay[],
  asOf: DayNumber,
  days: number,
  hazards?: Hazards,
): Evidence {
  const counted = noEvidence(days)
  for (const one of stays) countStay(counted, one, asOf, exitDays(one.stay, asOf, hazards))
  return counted
}

/** Stays that count alike whatever the hazards: entered on other days, perhaps, with the same days of what matters. */
export function alike(stays: readonly RecordedStay[], asOf: DayNumber): CountedStay[] {
  const kinds = new Map<string, { stay: RecordedStay; times: number }>()
  for (const stay of stays) {
    const { from, until, exit } = daysOfStay(stay, asOf)
    const open = Array.from({ length: until + 1 - from }, (_, i) => Number(couldPass(stay, from + i))).join(
      '',
    )
    const kind = `${from}|${until}|${exit?.by}|${exit?.earliest}|${opensAfter(stay)}|${open}`
    const kept = kinds.get(kind)
    if (kept === undefined) kinds.set(kind, { stay, times: 1 })
    else kept.times++
  }
  return [...kinds.values()]
}

/** Adds one stay to what is counted, as often as it counts. */
function countStay(
  counted: Evidence,
  { stay, times }: CountedStay,
  asOf: DayNumber,
  exit: ExitDays | null,
): void {
  const { from, until } = daysOfStay(stay, asOf)
  const opens = opensAfter(stay)
  let present = times
  for (let d = from; d <= Math.min(until, counted.days - 1); d++) {
    const ended = exit === null ? 0 : times * (exit.chances[d - exit.first] ?? 0)
    const stayed = Math.max(0, present - ended)
    // Whoever went on through a gate that was thought shut went through it all the same, on its first day.
    const k = Math.max(0, d - opens)
    if (exit?.by === 'onward') {
      counted.kept[d] = counted.kept[d]! + present
      counted.onward[k] = counted.onward[k]! + ended
    } else {
      counted.kept[d] = counted.kept[d]! + stayed
      for (const by of UNBARRED) if (exit?.by === by) counted[by][d] = counted[by][d]! + ended
    }
    if (couldPass(stay, d)) counted.stayed[k] = counted.stayed[k]! + stayed
    present = stayed
  }
}
