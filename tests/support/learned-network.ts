/**
 * The forecast of a generated network as the service would make it: stages and arrivals learned from its records alone,
 * and what they share drawn SHARED_DRAWS times for the doubt.
 */
import { seasonOf } from '#lib/domain/stage-cell.ts'
import { type Forecast, forecast, getDemand } from '#lib/forecast/forecast.ts'
import type { Hazards } from '#lib/forecast/hazards.ts'
import type {
  ArrivalStream,
  ForecastInput,
  Itinerary,
  PathStage,
  Pool,
  StageEstimate,
} from '#lib/forecast/model.ts'
import { drawArrivals, drawShares } from '#lib/learn/arrival-draws.ts'
import { type LearnedArrivals, learnArrivals, type UsualYear } from '#lib/learn/arrivals.ts'
import { daysOfCell } from '#lib/learn/cells.ts'
import { drawCentred } from '#lib/learn/draws.ts'
import { meanHazards } from '#lib/learn/hazards.ts'
import { type LearnedStage, learnStages } from '#lib/learn/learn-stages.ts'
import { PLAN_WEIGHT } from '#lib/learn/posterior.ts'
import { newSharedVariance, SHARED_DRAWS } from '#lib/learn/shared-variance.ts'
import { planOf } from './stage-truth.ts'
import { HORIZON_DAYS, type TrueHistory } from './true-history.ts'
import { ENTERED_SIZES, HOUSINGS, isYoung, MONTH_SHARES, type TrueWorld } from './true-world.ts'

export type Learned = {
  readonly estimates: readonly (readonly StageEstimate[])[]
  readonly stages: readonly (readonly LearnedStage[])[]
  readonly arrivals: readonly LearnedArrivals[]
}

/** What is learned of a world from a history of it. */
export function learnNetwork(world: TrueWorld, { from, arrivals, stays }: TrueHistory): Learned {
  const { asOf, groups } = world
  const estimates = groups.map(({ stages }) => stages.map(({ stage, plan }) => ({ ...planOf(plan), stage })))
  const cells = groups.flatMap(({ name, condition }, g) =>
    estimates[g]!.map((estimate, s) => {
      const its = stays[g]![s]!
      const days = daysOfCell(estimate, its, asOf)
      return { key: `${name}|${s}`, stage: estimate.stage, condition, estimate, stays: its, days }
    }),
  )
  const known = new Map(learnStages(cells, asOf).map(stage => [stage.key, stage]))
  return {
    estimates,
    stages: groups.map(({ name, stages }) => stages.map((_, s) => known.get(`${name}|${s}`)!)),
    arrivals: groups.map(({ name, yearly, entered }, g) => {
      const usual = entered.map(
        (share, centreId): UsualYear => ({
          centreId,
          animalsPerYear: yearly * share,
          monthShares: MONTH_SHARES,
          eventSizes: ENTERED_SIZES,
        }),
      )
      const group = {
        group: name,
        usual,
        records: arrivals[g]!,
        from,
        asOf,
        isYoung: (day: number) => isYoung(g, day),
      }
      return learnArrivals(group, HORIZON_DAYS)
    }),
  }
}

/** The forecast with the doubt that draws of what is shared leave, and without it. */
export function forecastLearned(world: TrueWorld, history: TrueHistory, learned: Learned) {
  const mean = inputOf(
    world,
    history,
    learned,
    ({ posterior }) => meanHazards(posterior),
    one => one,
  )
  const shared = newSharedVariance()
  for (let draw = 0; draw < SHARED_DRAWS; draw++) {
    const drawn = ({ centred, records, key }: LearnedStage) =>
      drawCentred(centred, PLAN_WEIGHT, records, `${world.asOf} ${key}`, draw)
    shared.add(
      forecast(
        inputOf(world, history, learned, drawn, one => ({
          ...one,
          eventsPerDay: drawArrivals(one, draw),
          shares: drawShares(one, draw),
        })),
      ),
    )
  }
  const doubts = new Map(shared.doubts().map(({ poolId, varianceByDay }) => [poolId, varianceByDay]))
  const pools = mean.pools.map(pool => ({
    ...pool,
    steps: pool.steps.map(step => ({ ...step, doubtByDay: doubts.get(pool.id)! })),
  }))
  return { sure: forecast(mean), doubtful: forecast({ ...mean, pools }) }
}

/** The chances of a cell's count at a horizon. */
export function chancesOf(made: Forecast, centre: number, housing: string, horizon: number): Float64Array {
  const { pmf, stride, top } = getDemand(made, poolName(centre, housing)).classes[0]!.wanted
  const day = horizon - 1
  return pmf.slice(day * stride, day * stride + top[day]! + 1)
}

const poolName = (centre: number, housing: string) => `${centre} ${housing}`

function inputOf(
  world: TrueWorld,
  { residents }: TrueHistory,
  { estimates, stages, arrivals }: Learned,
  hazardsOf: (stage: LearnedStage) => Hazards,
  arrivalsOf: (arrivals: LearnedArrivals) => LearnedArrivals,
): ForecastInput {
  const { asOf, size, groups } = world
  const ends = groups.map((_, g) =>
    stages[g]!.map((stage, s): StageEstimate => {
      const learned = { key: stage.key, run: 'run', ...hazardsOf(stage), beyond: stage.posterior.beyond }
      return { ...estimates[g]![s]!, learned }
    }),
  )
  const paths = groups.map((group, g) =>
    Array.from({ length: size.centres }, (_, centre) =>
      group.stages.map(({ housing }, s): PathStage => {
        const need = { housing, size: 3, company: group.name, stock: 1 }
        return { estimate: ends[g]![s]!, need, poolId: poolName(centre, housing) }
      }),
    ),
  )
  return {
    today: asOf,
    horizonDays: HORIZON_DAYS,
    shareOfTodayLeft: 1,
    pools: Array.from({ length: size.centres }, (_, centre) =>
      HOUSINGS.map(housing => poolOf(centre, housing)),
    ).flat(),
    itineraries: residents.map(
      ({ group, centre, stage, enteredOn }, i): Itinerary => ({
        casualtyId: `${i}`,
        count: 1,
        stages: paths[group]![centre]!,
        firstStage: stage,
        enteredStageOn: enteredOn,
        isReady: false,
        unseenDays: 0,
      }),
    ),
    arrivals: groups.flatMap((_, g) => {
      const of = arrivalsOf(arrivals[g]!)
      return paths[g]!.flatMap((path, centre) => streamsOf(g, centre, asOf, of, path))
    }),
  }
}

function poolOf(centre: number, housing: (typeof HOUSINGS)[number]): Pool {
  const capacityByDay = new Int32Array(HORIZON_DAYS).fill(1)
  const id = poolName(centre, housing)
  return { id, centreId: `${centre}`, housing, turnaroundDays: 0, steps: [{ size: 9, capacityByDay }] }
}

/** Months in which young come and the others, each with its own sizes. */
function streamsOf(
  g: number,
  centre: number,
  asOf: number,
  { sizes, shares, eventsPerDay: events }: LearnedArrivals,
  stages: readonly PathStage[],
): ArrivalStream[] {
  const here = events.map((all, d) => {
    const of = shares[seasonOf(asOf + d)].find(({ centreId }) => centreId === centre)
    return all * (of?.share ?? 0)
  })
  return [true, false].flatMap(young => {
    const eventsPerDay = here.map((one, d) => (isYoung(g, asOf + d) === young ? one : 0))
    if (eventsPerDay.every(one => one === 0)) return []
    const broodSizePmf = young ? sizes.young : sizes.grown
    return [{ key: `${centre} ${g} ${young}`, stages, eventsPerDay, broodSizePmf }]
  })
}
