/**
 * Small networks and calls for tests of placement: three centres on a line, two stages, everything open and free
 * unless a test says otherwise.
 */
import type { CareStage, HousingType } from '#lib/domain/housing.ts'
import { type Forecast, forecast } from '#lib/forecast/forecast.ts'
import type { ForecastInput, Itinerary, Need, Pool, StageEstimate } from '#lib/forecast/model.ts'
import type { CentreNow, PlacementQuestion, PlanPolicy, PlanStage } from '#lib/plan/model.ts'

export const TODAY = 20_782 // 25 November 2026

/** The weights of the preset "balanced". */
export const BALANCED_POLICY: PlanPolicy = {
  kappa: 0.4,
  omega: 4,
  transferDays: 2,
  kmPerPlaceDay: 40,
  refusalDays: 20,
  redirectDays: 5,
  keepDays: { advice: 0.25, tomorrow: 0.5, today: 3, now: 3 },
}

export function estimate(stage: CareStage, medianDays: number, onward = 0.8): StageEstimate {
  const rest = 1 - onward
  return {
    stage,
    ready: { kind: 'length', length: { medianDays, p90Days: medianDays * 2 } },
    shares: { onward, died: rest * 0.5, euthanased: rest * 0.3, left: rest * 0.2 },
    died: { medianDays: 2, p90Days: 31 },
    euthanased: { medianDays: 1, p90Days: 4 },
  }
}

export function need(housing: HousingType, size = 1, company = 'kestrels', stock = 1): Need {
  return { housing, size, company, stock }
}

export function stage(name: CareStage, housing: HousingType, medianDays = 10, onward = 0.8): PlanStage {
  return { stage: name, estimate: estimate(name, medianDays, onward), needs: [need(housing)] }
}

export const TWO_STAGES: readonly PlanStage[] = [
  stage('restricted activity', 'hospital-cage', 8),
  stage('unlimited activity', 'flight-aviary', 14),
]

export function pool(centreId: string, housing: HousingType, capacity: number, days = 60): Pool {
  const capacityByDay = new Int32Array(days).fill(capacity)
  return {
    id: `${centreId}/${housing}`,
    centreId,
    housing,
    steps: [{ size: 5, capacityByDay }],
    turnaroundDays: 0,
  }
}

/** Somebody who is expected to stay in a pool for the whole forecast. */
export function resident(id: string, housing: HousingType, poolId: string, medianDays = 400): Itinerary {
  return {
    casualtyId: id,
    count: 1,
    stages: [{ estimate: estimate('restricted activity', medianDays), need: need(housing), poolId }],
    firstStage: 0,
    enteredStageOn: TODAY - 3,
    isReady: false,
    unseenDays: 0,
  }
}

export function forecastInput(
  pools: readonly Pool[],
  itineraries: readonly Itinerary[] = [],
  horizonDays = 60,
): ForecastInput {
  return { today: TODAY, horizonDays, shareOfTodayLeft: 0.25, pools, itineraries, arrivals: [] }
}

export const CENTRE_IDS = ['ash', 'birch', 'cedar'] as const
const NAMES: Readonly<Record<string, string>> = {
  ash: 'Ashdown Quay',
  birch: 'Birchover',
  cedar: 'Cedar Sands',
}

export const POOLS: readonly Pool[] = CENTRE_IDS.flatMap(id => [
  pool(id, 'hospital-cage', 2),
  pool(id, 'flight-aviary', 1),
])

export function openForecast(itineraries: readonly Itinerary[] = []): Forecast {
  return forecast(forecastInput(POOLS, itineraries))
}

function homeAt(pools: readonly Pool[], centreId: string, needs: readonly Need[]) {
  for (const wanted of needs) {
    const found = pools.find(each => each.centreId === centreId && each.housing === wanted.housing)
    if (found !== undefined) return { poolId: found.id, need: wanted }
  }
  return null
}

/** A centre `km` from the finder where everything is open and two cages are free. */
export function centre(
  id: string,
  km: number,
  stages: readonly PlanStage[] = TWO_STAGES,
  pools: readonly Pool[] = POOLS,
): CentreNow {
  return {
    id,
    name: NAMES[id] ?? id,
    phone: '07000 000 100',
    isActive: true,
    takesGroup: true,
    door: { kind: 'open' },
    site: { kind: 'open' },
    countedDaysAgo: 0,
    noMoreUntil: null,
    feeding: null,
    offer: { places: 6, left: 4 },
    road: { km, minutes: km * 1.2 },
    freeTonight: [1, 2].map(no => ({ enclosureId: `${id}-cage-${no}`, placeNo: 1, name: `cage ${no}` })),
    homes: stages.map(each => homeAt(pools, id, each.needs)),
  }
}

export const BETWEEN: PlacementQuestion['between'] = Object.fromEntries(
  CENTRE_IDS.map((from, i) => [
    from,
    Object.fromEntries(
      CENTRE_IDS.map((to, j) => [to, { km: 30 * Math.abs(i - j), minutes: 36 * Math.abs(i - j) }]),
    ),
  ]),
)

/** One caught kestrel with its finder, today, near Ashdown Quay. */
export function question(changes: Partial<PlacementQuestion> = {}): PlacementQuestion {
  return {
    today: TODAY,
    animals: {
      count: 1,
      group: { id: 'falcons', name: 'Falcons' },
      isHighRisk: false,
      feedsADay: 0,
      stages: TWO_STAGES,
    },
    suspect: null,
    isLeaveAlone: false,
    isCaught: true,
    hasFinder: true,
    urgency: 'today',
    policy: BALANCED_POLICY,
    keep: null,
    centres: [centre('ash', 6), centre('birch', 24), centre('cedar', 54)],
    between: BETWEEN,
    practices: [],
    outside: [],
    ...changes,
  }
}

/** The question with one centre changed. */
export function withCentre(
  asked: PlacementQuestion,
  id: string,
  changes: Partial<CentreNow>,
): PlacementQuestion {
  return { ...asked, centres: asked.centres.map(each => (each.id === id ? { ...each, ...changes } : each)) }
}
