/**
 * The years of a true network: who came, how each stage ended, and how many were wanted a place each night, past and to
 * come. What is recorded is what a network would have on the morning of `asOf`.
 */
import type { RecordedArrival } from '#lib/learn/arrivals.ts'
import type { RecordedStay } from '#lib/learn/stay.ts'
import { alias, type Draw, xoshiro } from '#tests/montecarlo/random.ts'
import { newStays } from './stage-truth.ts'
import {
  gammaOf,
  HOUSINGS,
  indexAt,
  quarterOf,
  seasonName,
  type TrueGroup,
  type TrueWorld,
} from './true-world.ts'

/** Two years of records; more than a third of counts for those who guess from them; before it the house fills. */
const RECORDED_DAYS = 731
const COUNTED_DAYS = 1210
const FILLING_DAYS = 240
export const HORIZON_DAYS = 90

export type Resident = {
  readonly group: number
  readonly centre: number
  readonly stage: number
  readonly enteredOn: number
}
/** `from`: first day of the records. `counts[cell]`: wanted at the midnight ending each day from asOf - COUNTED_DAYS on. */
export type TrueHistory = {
  readonly from: number
  readonly arrivals: readonly (readonly RecordedArrival[])[]
  /** By group and stage. */
  readonly stays: readonly (readonly (readonly RecordedStay[])[])[]
  readonly residents: readonly Resident[]
  readonly counts: readonly Int32Array[]
}
export const cellOf = (centre: number, housing: string) =>
  centre * HOUSINGS.length + HOUSINGS.findIndex(one => one === housing)
/** Index into counts of the day `horizon` midnights after the last one counted. */
export const atHorizon = (horizon: number) => COUNTED_DAYS + horizon - 1

/** Lives a world's years and the days after them once. */
export function liveHistory(world: TrueWorld, seed: number): TrueHistory {
  const { asOf, size, groups } = world
  const from = asOf - RECORDED_DAYS
  const draw = xoshiro(seed)
  const changes = Array.from(
    { length: size.centres * HOUSINGS.length },
    () => new Int32Array(COUNTED_DAYS + HORIZON_DAYS + 1),
  )
  const residents: Resident[] = []
  const arrivals: RecordedArrival[][] = groups.map(() => [])
  const stays = groups.map(({ stages }) => stages.map((): RecordedStay[] => []))
  for (const [g, group] of groups.entries()) {
    const live = newLives(world, g, seed * 31 + g, { changes, residents, stays: stays[g]! })
    const centreOf = group.shares.map(shares => alias(shares, draw))
    for (const { day, animals } of eventsOf(group, asOf, draw)) {
      const centre = centreOf[quarterOf(day)]!()
      if (day >= from && day < asOf) arrivals[g]!.push({ day, centreId: centre, animals, planIds: null })
      for (let i = 0; i < animals; i++) live(centre, day)
    }
  }
  for (const change of changes) for (let d = 1; d < change.length; d++) change[d]! += change[d - 1]!
  return { from, arrivals, stays, residents, counts: changes }
}

function* eventsOf(group: TrueGroup, asOf: number, draw: Draw) {
  const levels = new Map<string, number>()
  const levelOn = (day: number) => {
    const season = seasonName(day)
    const shape = 1 / group.seasonVariance
    const level = levels.get(season) ?? gammaOf(shape, draw) / shape
    levels.set(season, level)
    return level
  }
  for (let day = asOf - COUNTED_DAYS - FILLING_DAYS; day < asOf + HORIZON_DAYS; day++) {
    const rate = (group.meanOn(day) * levelOn(day) * gammaOf(group.theta, draw)) / group.theta
    const sizes = group.sizesOn(day)
    for (let left = countOf(rate, draw); left > 0; left--) {
      yield { day, animals: indexAt(sizes, draw()) + 1 }
    }
  }
}

/** Poisson, by waiting times. */
function countOf(mean: number, draw: Draw): number {
  let count = -1
  for (let waited = 0; waited < mean; count++) waited -= Math.log(1 - draw())
  return Math.max(0, count)
}

type Kept = {
  readonly changes: readonly Int32Array[]
  readonly residents: Resident[]
  readonly stays: readonly RecordedStay[][]
}

/** Lives one animal after another through a group's stages. */
function newLives(world: TrueWorld, g: number, seed: number, { changes, residents, stays }: Kept) {
  const { asOf, groups } = world
  const { stages } = groups[g]!
  const nexts = stages.map(({ truth }, s) => newStays(truth, seed * 7 + s))
  const first = asOf - COUNTED_DAYS
  const from = asOf - RECORDED_DAYS
  let animals = 0
  return (centre: number, arrived: number) => {
    animals++
    let day = arrived
    for (const [s, { housing }] of stages.entries()) {
      const { exit, midnights } = nexts[s]!()
      const until = day + midnights
      const change = changes[cellOf(centre, housing)]!
      const at = (on: number) => Math.min(change.length - 1, Math.max(0, on - first))
      change[at(day)]!++
      change[at(until)]!--
      if (day < asOf && until >= asOf) residents.push({ group: g, centre, stage: s, enteredOn: day })
      if (day < asOf && until >= from) {
        const end = until < asOf ? { kind: 'exit' as const, exit, on: until } : null
        stays[s]!.push({
          key: `${animals}|${s}`,
          enteredOn: day,
          ...(day < from && { watchedFrom: from }),
          end,
        })
      }
      if (exit !== 'onward') return
      day = until
      if (day >= asOf + HORIZON_DAYS) return
    }
  }
}
