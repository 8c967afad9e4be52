/** Small parts of forecasts for tests: estimates, needs, pools, itineraries with one thing said and the rest usual. */
import type {
  ArrivalStream,
  ForecastInput,
  Itinerary,
  LengthEstimate,
  Need,
  PathStage,
  Pool,
  StageEstimate,
} from '#lib/forecast/model.ts'

export const TODAY = 20_782 // 25 November 2026

export function length(medianDays: number, p90Days: number): LengthEstimate {
  return { medianDays, p90Days }
}

export function estimate(change: Partial<StageEstimate> = {}): StageEstimate {
  return {
    stage: 'restricted activity',
    ready: { kind: 'length', length: length(12, 30) },
    shares: { onward: 0.8, died: 0.1, euthanased: 0.07, left: 0.03 },
    died: length(4, 16),
    euthanased: length(6, 22),
    ...change,
  }
}

/** Spring gate after a winter in care. */
export const OVERWINTERING = estimate({
  stage: 'overwintering',
  ready: { kind: 'date gate', opens: '03-20', closes: '05-31', minDays: 10, lag: length(13, 35) },
  died: length(50, 120),
  euthanased: length(40, 110),
})

export function need(change: Partial<Need> = {}): Need {
  return { housing: 'hospital-cage', size: 2, company: 'thrushes', stock: 1, ...change }
}

export function stage(
  poolId: string | null,
  change: Partial<StageEstimate> = {},
  needed: Partial<Need> = {},
): PathStage {
  return { estimate: estimate(change), need: need(needed), poolId }
}

export function pool(
  id: string,
  capacities: readonly number[],
  days: number,
  change: Partial<Pool> = {},
): Pool {
  return {
    id,
    centreId: id,
    housing: 'hospital-cage',
    turnaroundDays: 0,
    steps: capacities.map((capacity, u) => ({
      size: 2 + u,
      capacityByDay: new Int32Array(days).fill(capacity),
    })),
    ...change,
  }
}

export function itinerary(
  casualtyId: string,
  stages: readonly PathStage[],
  change: Partial<Itinerary> = {},
): Itinerary {
  return {
    casualtyId,
    count: 1,
    stages,
    firstStage: 0,
    enteredStageOn: TODAY - 3,
    isReady: false,
    unseenDays: 0,
    ...change,
  }
}

export function stream(
  key: string,
  stages: readonly PathStage[],
  perDay: number,
  days: number,
  broodSizePmf: readonly number[] = [1],
): ArrivalStream {
  return { key, stages, eventsPerDay: new Float64Array(days).fill(perDay), broodSizePmf }
}

export function input(change: Partial<ForecastInput> = {}): ForecastInput {
  return {
    today: TODAY,
    horizonDays: 30,
    shareOfTodayLeft: 1,
    pools: [],
    itineraries: [],
    arrivals: [],
    ...change,
  }
}

/** Chances that are the same on every day: for checks that speak of one day. */
export function steady(p: number, days = 1): Float64Array {
  return new Float64Array(days).fill(p)
}
