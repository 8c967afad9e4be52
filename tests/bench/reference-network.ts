/**
 * The seeded reference network: centres of five pools and six size classes each, animals in care and arrivals, all
 * invented. The same seed gives the same network.
 */
import type { HousingType } from '#lib/domain/housing.ts'
import {
  type ArrivalStream,
  aloneCompany,
  arrivalCompany,
  type ForecastInput,
  type Itinerary,
  type LengthEstimate,
  type Need,
  type PathStage,
  type Pool,
  type StageEstimate,
} from '#lib/forecast/model.ts'
import { type Random, seededRandom } from '#lib/numerics/random.ts'

export type NetworkSize = {
  readonly centres: number
  readonly inCare: number
  readonly arrivalsPerDay: number
  readonly days: number
}

export const REFERENCE: NetworkSize = { centres: 12, inCare: 600, arrivalsPerDay: 60, days: 180 }
/** 25 November 2026. */
const TODAY = 20_782

type Row = readonly [StageEstimate['stage'], HousingType, number, number, number, number, number]
/** Stage, housing, ready median and 90th percentile, shares of onward, died, euthanased; the rest leave. */
const PLANS: readonly (readonly Row[])[] = [
  [
    ['critical care', 'intensive-care', 1.5, 5, 0.55, 0.13, 0.32],
    ['restricted activity', 'hospital-cage', 7, 18, 0.87, 0.07, 0.05],
    ['unlimited activity', 'flight-aviary', 10, 24, 0.95, 0.02, 0.02],
  ],
  [
    ['critical care', 'intensive-care', 2, 6, 0.62, 0.13, 0.24],
    ['restricted activity', 'hospital-cage', 17.5, 23.5, 0.8, 0.09, 0.11],
    ['limited activity', 'indoor-pen', 4, 8, 0.95, 0.02, 0.03],
    ['unlimited activity', 'flight-aviary', 18, 45, 0.93, 0.03, 0.01],
  ],
  [
    ['quarantine', 'isolation', 5, 9, 0.85, 0.1, 0.05],
    ['restricted activity', 'hospital-cage', 8, 20, 0.9, 0.05, 0.04],
    ['unlimited activity', 'flight-aviary', 9, 16, 0.95, 0.03, 0.01],
  ],
  [
    ['critical care', 'intensive-care', 3, 8, 0.67, 0.22, 0.11],
    ['restricted activity', 'hospital-cage', 12, 40, 0.91, 0.07, 0.02],
    ['unlimited activity', 'indoor-pen', 8, 30, 0.95, 0.03, 0.01],
  ],
  [
    ['restricted activity', 'hospital-cage', 6, 12, 0.9, 0.07, 0.02],
    ['unlimited activity', 'flight-aviary', 14, 28, 0.95, 0.03, 0.01],
  ],
  [
    ['critical care', 'intensive-care', 2, 5, 0.8, 0.12, 0.08],
    ['overwintering', 'indoor-pen', 13, 35, 0.81, 0.14, 0.03],
  ],
]
/** Last plan's last stage ends by date. */
const GATED = PLANS.length - 1
const BROODS = [[1], [1], [0.5, 0.2, 0.1, 0.1, 0.1], [1], [0.3, 0.3, 0.2, 0.2], [1]]

function lengthOf(medianDays: number, p90Days: number): LengthEstimate {
  return { medianDays, p90Days }
}

const ESTIMATES: readonly (readonly StageEstimate[])[] = PLANS.map((rows, plan) =>
  rows.map(([stage, , median, p90, onward, died, euthanased], at) => ({
    stage,
    ready:
      plan === GATED && at === rows.length - 1
        ? { kind: 'date gate', opens: '03-20', closes: '05-31', minDays: 10, lag: lengthOf(median, p90) }
        : { kind: 'length', length: lengthOf(median, p90) },
    shares: { onward, died, euthanased, left: Math.max(0, 1 - onward - died - euthanased) },
    died: lengthOf(at === 0 ? 1.5 : 6, at === 0 ? 6 : 24),
    euthanased: lengthOf(at === 0 ? 0.7 : 8, at === 0 ? 3 : 30),
    ...(plan === 1 && at === 1 ? { leastDays: 14 } : {}),
  })),
)

/** Enclosures by housing type at a centre of usual size, and days of cleaning. */
const HOUSING: readonly (readonly [HousingType, readonly (readonly [number, number])[], number])[] = [
  ['intensive-care', [[9, 12]], 0],
  ['isolation', [[9, 6]], 2],
  ['hospital-cage', [[9, 54]], 0],
  ['indoor-pen', [[9, 38]], 0],
  [
    'flight-aviary',
    [
      [5, 9],
      [15, 4],
    ],
    0,
  ],
]

/** Builds the network of this size. `singly`: every animal fills an enclosure (no companies, no broods). */
export function referenceNetwork(size: NetworkSize, seed: number): ForecastInput {
  const random = seededRandom(seed)
  const pools = Array.from({ length: size.centres }, (_, centre) =>
    HOUSING.map(([housing, steps, turnaroundDays]) =>
      poolOf(centre, housing, steps, turnaroundDays, size, random),
    ),
  ).flat()
  const itineraries = Array.from({ length: size.inCare }, (_, i) => residentOf(i, size, random))
  const arrivals = Array.from({ length: size.centres }, (_, centre) =>
    PLANS.map((_, plan) => streamOf(centre, plan, size)),
  ).flat()
  return { today: TODAY, horizonDays: size.days, shareOfTodayLeft: 1, pools, itineraries, arrivals }
}

function poolOf(
  centre: number,
  housing: HousingType,
  steps: readonly (readonly [number, number])[],
  turnaroundDays: number,
  { days, inCare, centres }: NetworkSize,
  random: Random,
): Pool {
  const scale = (inCare / centres / 50) * (0.8 + 0.4 * random())
  const closedFrom = Math.floor(random() * days)
  return {
    id: `${centre} ${housing}`,
    centreId: `${centre}`,
    housing,
    turnaroundDays,
    steps: steps.map(([stepSize, usual]) => ({
      size: stepSize,
      // One enclosure of each kind is closed for repair for a week.
      capacityByDay: Int32Array.from({ length: days }, (_, d) =>
        Math.max(1, Math.round(usual * scale) - (d >= closedFrom && d < closedFrom + 7 ? 1 : 0)),
      ),
    })),
  }
}

/** The stages of a plan at a centre; some animals must be alone, some need the long aviary. */
function pathOf(centre: number, plan: number, id: string, kind: number): PathStage[] {
  return PLANS[plan]!.map(([, housing], at) => ({
    estimate: ESTIMATES[plan]![at]!,
    poolId: `${centre} ${housing}`,
    need: needOf(housing, plan, id, kind),
  }))
}

function needOf(housing: HousingType, plan: number, id: string, kind: number): Need {
  if (housing === 'isolation') return { housing, size: 3, company: arrivalCompany(id), stock: 2 }
  if (housing !== 'flight-aviary') return { housing, size: 3, company: `group ${plan}`, stock: 1 }
  if (kind === 0) return { housing, size: 10, company: aloneCompany(id), stock: 4 }
  return { housing, size: kind === 1 ? 15 : 3.6, company: `group ${plan}`, stock: 4 + plan }
}

function residentOf(i: number, size: NetworkSize, random: Random): Itinerary {
  const centre = Math.floor(random() * size.centres)
  const plan = Math.floor(random() * PLANS.length)
  const stages = pathOf(centre, plan, `casualty-${i}`, Math.floor(random() * 6))
  const firstStage = Math.floor(random() * stages.length)
  const [, , median] = PLANS[plan]![firstStage]!
  const soFar =
    plan === GATED && firstStage === 1 ? Math.floor(random() * 40) : Math.floor(random() * 1.2 * median)
  const part = random()
  return {
    casualtyId: `casualty-${i}`,
    count: part < 0.04 ? 3 : 1,
    stages,
    firstStage,
    enteredStageOn: TODAY - soFar,
    isReady: part > 0.9 && firstStage + 1 < stages.length,
    unseenDays: part > 0.6 && part < 0.7 ? 3 : 0,
  }
}

/** Arrivals of a plan at a centre, with a season: most in early summer. */
function streamOf(centre: number, plan: number, size: NetworkSize): ArrivalStream {
  const pmf = BROODS[plan]!
  const brood = pmf.reduce((sum, p, b) => sum + p * (b + 1), 0)
  const perDay = size.arrivalsPerDay / size.centres / PLANS.length / brood
  return {
    key: `${centre} ${plan}`,
    stages: pathOf(centre, plan, 'stream', plan === 1 ? 1 : 2),
    eventsPerDay: Float64Array.from(
      { length: size.days },
      (_, d) => perDay * (1 + 0.6 * Math.sin((2 * Math.PI * (d - 30)) / 365)),
    ),
    broodSizePmf: pmf,
  }
}
