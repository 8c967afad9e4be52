/**
 * Which care plans a group's arrivals go by, season by season: what is wrong with those that come.
 * Promise: shares of animals that sum to 1 in each season; without records all go the group's usual plan. A season leans on
 * the other three, which leave its own records out, fainter than on itself: orphans come in summer.
 */
import type { PlanMix, PlanShare } from '#lib/domain/learned-arrivals.ts'
import { SEASONS, type Season, seasonOf } from '#lib/domain/stage-cell.ts'
import type { RecordedArrival } from './arrivals.ts'

/** What the rest of the year weighs in a season, and the usual plan in the year, in arrivals. Ours. */
export const MIX_WEIGHT = 5
/** Plans of fewer animals, or of a smaller share of every season's, go by the usual plan: each costs a forecast of its own. Ours. */
const LEAST = { animals: 10, share: 0.04 }
/** The usual plan: that of animals of the group of which nobody says what is wrong. */
const USUAL: readonly string[] = []
const USUAL_NAME = nameOf(USUAL)

/** Animals and arrivals of one season, by the name of their plans. */
type Counts = {
  readonly arrivals: number
  readonly animals: number
  readonly byPlan: ReadonlyMap<string, number>
}

/** The plans of a group's arrivals. Those that were sent elsewhere, or have no plan yet, tell nothing of them. */
export function learnMix(records: readonly RecordedArrival[]): PlanMix {
  const told = records.filter(({ planIds }) => planIds !== null)
  const often = oftenIn(told)
  const seasons = SEASONS.map(season =>
    countsOf(
      told.filter(({ day }) => seasonOf(day) === season),
      often,
    ),
  )
  const plans = [USUAL_NAME, ...often.keys()]
  const shares = seasons.map((own, s) => {
    const others = seasons.filter((_, other) => other !== s)
    const yearly = leaning(plans, plan => Number(plan === USUAL_NAME), together(others))
    return leaning(plans, plan => yearly.get(plan) ?? 0, own)
  })
  const young = youngIn(told)
  const youngOf = (plan: string) => {
    const share = often.has(plan) ? young.get(plan) : undefined
    return share === undefined ? {} : { young: share }
  }
  const of = (s: number): PlanShare[] =>
    plans.map(plan => ({
      planIds: often.get(plan) ?? USUAL,
      share: shares[s]?.get(plan) ?? 0,
      ...youngOf(plan),
    }))
  return { winter: of(0), spring: of(1), summer: of(2), autumn: of(3) }
}

/** What the plans of each season rest on, in arrivals. */
export function mixWeight(records: readonly RecordedArrival[]): Record<Season, number> {
  const of = (season: Season) =>
    MIX_WEIGHT + records.filter(({ day, planIds }) => planIds !== null && seasonOf(day) === season).length
  return { winter: of('winter'), spring: of('spring'), summer: of('summer'), autumn: of('autumn') }
}

/** Plans that enough animals go by, and in some season enough of its animals, by name, in the order of their names. */
function oftenIn(records: readonly RecordedArrival[]): Map<string, readonly string[]> {
  const known = new Map(records.map(({ planIds }) => [nameOf(planIds), planIds ?? USUAL]))
  const seasons = SEASONS.map(season =>
    countsOf(
      records.filter(({ day }) => seasonOf(day) === season),
      known,
    ),
  )
  const year = countsOf(records, known)
  const isOften = (plan: string) =>
    (year.byPlan.get(plan) ?? 0) >= LEAST.animals &&
    seasons.some(({ animals, byPlan }) => (byPlan.get(plan) ?? 0) >= LEAST.share * Math.max(1, animals))
  return new Map([...known].filter(([plan]) => isOften(plan)).sort(([a], [b]) => (a < b ? -1 : 1)))
}

/** The share of young among the animals of each plan of whose age records tell. */
function youngIn(records: readonly RecordedArrival[]): Map<string, number> {
  const sums = new Map<string, { young: number; animals: number }>()
  for (const { planIds, animals, young } of records) {
    if (young === undefined || young === null) continue
    const sum = sums.get(nameOf(planIds)) ?? { young: 0, animals: 0 }
    sums.set(nameOf(planIds), { young: sum.young + young, animals: sum.animals + animals })
  }
  return new Map([...sums].map(([plan, sum]) => [plan, sum.young / sum.animals]))
}

function countsOf(records: readonly RecordedArrival[], often: ReadonlyMap<string, unknown>): Counts {
  const byPlan = new Map<string, number>()
  let animals = 0
  for (const { planIds, animals: some } of records) {
    const plan = often.has(nameOf(planIds)) ? nameOf(planIds) : USUAL_NAME
    byPlan.set(plan, (byPlan.get(plan) ?? 0) + some)
    animals += some
  }
  return { arrivals: records.length, animals, byPlan }
}

function together(seasons: readonly Counts[]): Counts {
  const byPlan = new Map<string, number>()
  for (const season of seasons)
    for (const [plan, animals] of season.byPlan) byPlan.set(plan, (byPlan.get(plan) ?? 0) + animals)
  const sum = (of: (one: Counts) => number) => seasons.reduce((all, one) => all + of(one), 0)
  return { arrivals: sum(({ arrivals }) => arrivals), animals: sum(({ animals }) => animals), byPlan }
}

/** Shares of animals; brood-mates have one cause, so it is arrivals that weigh against what stands before. */
function leaning(
  plans: readonly string[],
  prior: (plan: string) => number,
  { arrivals, animals, byPlan }: Counts,
): Map<string, number> {
  const own = (plan: string) => (animals > 0 ? (arrivals * (byPlan.get(plan) ?? 0)) / animals : 0)
  return new Map(plans.map(plan => [plan, (MIX_WEIGHT * prior(plan) + own(plan)) / (MIX_WEIGHT + arrivals)]))
}

function nameOf(planIds: readonly string[] | null): string {
  return [...(planIds ?? USUAL)].sort().join('+')
}
