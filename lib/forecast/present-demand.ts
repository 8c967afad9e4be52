/**
 * How many enclosures the animals that are there want, by kind of place: what a forecast's demand comes true as.
 * Promise: counted as the forecast counts its first midnight. A company of N at stocking n wants ceil(N / n); an animal said
 * ready wants its next stage's place; one that stays in a pool over several stages counts by the largest of them.
 */
import type { Counts } from './company.ts'
import { classOf, companyOf } from './demand.ts'
import type { Forecast } from './forecast.ts'
import type { Itinerary, PathStage, Pool } from './model.ts'
import { sliceOf } from './pool-forecast.ts'
import type { Pools } from './pools.ts'

/** A place that is wanted now: the pool, and the size class and company it counts in. */
export type Wanted = {
  readonly series: string
  readonly company: string
  readonly stock: number
}

/** The name of the demand for one size class of a pool. */
export function seriesOf({ id }: Pick<Pool, 'id'>, size: number): string {
  return `${id}|${size}`
}

/** All such names of these pools, in their order. */
export function listSeries(pools: Pools): string[] {
  return pools.all.flatMap(pool => pool.steps.map(({ size }) => seriesOf(pool, size)))
}

/** What an animal wants now; undefined where no pool of the network serves it. */
export function wantedNow(
  { stages, firstStage, isReady }: Pick<Itinerary, 'stages' | 'firstStage' | 'isReady'>,
  pools: Pools,
): Wanted | undefined {
  const at = Math.min(stages.length - 1, isReady ? firstStage + 1 : firstStage)
  const pool = pools.byId.get(stages[at]?.poolId ?? '')
  if (pool === undefined) return undefined
  const need = largestFrom(stages, at)
  const size = pool.steps[classOf(pool, need.size)]!.size
  const { key, stock } = companyOf(need)
  return { series: seriesOf(pool, size), company: key, stock }
}

/** The enclosures wanted by series; a series that nobody wants has no entry. */
export function presentDemand(wanted: Iterable<Wanted>): Map<string, number> {
  const companies = new Map<string, { of: Wanted; animals: number }>()
  for (const of of wanted) {
    const key = `${of.series}|${of.company}`
    const company = companies.get(key) ?? { of, animals: 0 }
    company.animals++
    companies.set(key, company)
  }
  const demand = new Map<string, number>()
  for (const { of, animals } of companies.values()) {
    demand.set(of.series, (demand.get(of.series) ?? 0) + Math.ceil(animals / of.stock))
  }
  return demand
}

/** The need of the largest size among the stages spent in one pool from here on. */
function largestFrom(stages: readonly PathStage[], at: number): PathStage['need'] {
  let need = stages[at]!.need
  for (let i = at + 1; i < stages.length && stages[i]!.poolId === stages[at]!.poolId; i++) {
    if (stages[i]!.need.size > need.size) need = stages[i]!.need
  }
  return need
}

/** By series and day of a forecast, the chances of 0, 1, 2, .. enclosures wanted. Throws RangeError for another series. */
export function chancesBySeries({ demands }: Forecast): (series: string, day: number) => Float64Array {
  const counts = new Map<string, Counts>()
  for (const { pool, classes } of demands.values()) {
    for (const [u, { wanted }] of classes.entries()) counts.set(seriesOf(pool, pool.steps[u]!.size), wanted)
  }
  return (series, day) => {
    const wanted = counts.get(series)
    if (wanted === undefined) throw new RangeError(`series needs a place of the forecast, got ${series}`)
    const { pmf, at, top } = sliceOf(wanted, day)
    return pmf.subarray(at, at + top + 1)
  }
}
