/**
 * One animal's days ahead as its ribbon shows them, from the very forecast that options and Weeks ahead use.
 * Promise: dates hold given that each stage is passed; a chance is of a proper place, if the animal lives to need it,
 * and an animal never competes with itself. Computed once a forecast. Internal to lib/service: no rows of its own.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { ResidentState } from '#lib/domain/network-state.ts'
import { type Forecast, price } from '#lib/forecast/forecast.ts'
import { findPassedBy, type Occupancy, occupancyOf, type StageOccupancy } from '#lib/forecast/occupancy.ts'
import { poolId as poolIdOf } from '#lib/forecast/pools.ts'
import { meanPrice } from '#lib/forecast/proper-place.ts'
import type { Tonight } from './network.ts'

export type StageEnd = Readonly<Record<'q10' | 'q25' | 'median' | 'q75' | 'q90', DayNumber>>

export type StageAhead = {
  readonly no: number
  readonly stage: CareStage
  readonly centreId: number | null
  readonly centre: string
  readonly end: StageEnd
  /** Whether the likely end lies within the forecast; beyond it the last day stands for it. */
  readonly isEndKnown: boolean
  readonly chance: number
  /** It is in this stage now, in a place that is its own. */
  readonly isHere: boolean
}

export type StayAhead = {
  /** The day the first stage shown began or begins. */
  readonly startDay: DayNumber
  readonly stages: readonly StageAhead[]
  /** The chance that no proper place is free, today and each day after it. */
  readonly groundByDay: readonly number[]
}

type Priced = { readonly stage: StageOccupancy; readonly prices: Float64Array | 'its own' | undefined }

const kept = new WeakMap<Forecast, Map<number, StayAhead | undefined>>()
const untils = new WeakMap<Forecast, ReadonlyMap<number, DayNumber>>()

/** No rows: what lies ahead of a casualty; undefined for one without a plan, or no longer in care. */
export function findStayAhead(tonight: Tonight, casualtyId: number): StayAhead | undefined {
  const ofForecast = kept.get(tonight.forecast) ?? new Map<number, StayAhead | undefined>()
  kept.set(tonight.forecast, ofForecast)
  if (!ofForecast.has(casualtyId)) ofForecast.set(casualtyId, aheadOf(tonight, casualtyId))
  return ofForecast.get(casualtyId)
}

/** No rows: the likely last day of every stay, by casualty; those that end after the forecast have its last day. */
export function lastDayById(tonight: Tonight): ReadonlyMap<number, DayNumber> {
  const known = untils.get(tonight.forecast)
  if (known !== undefined) return known
  const { basis, today } = tonight
  const made = new Map(
    [...basis.itineraryById].map(([id, itinerary]) => {
      const last = occupancyOf(itinerary, basis.input).stages.at(-1)
      const passed = last === undefined ? undefined : findPassedBy(last, 0.5)
      return [id, today + (passed ?? basis.input.horizonDays)] as const
    }),
  )
  untils.set(tonight.forecast, made)
  return made
}

function aheadOf(tonight: Tonight, casualtyId: number): StayAhead | undefined {
  const { state, today, basis } = tonight
  const itinerary = basis.itineraryById.get(casualtyId)
  const resident = state.residents.find(({ id }) => id === casualtyId)
  if (itinerary === undefined || resident === undefined) return undefined
  const occupancy = occupancyOf(itinerary, basis.input)
  const priced = occupancy.stages.map((stage, at) => pricedOf(tonight, resident, occupancy, stage, at))
  return {
    startDay: itinerary.isReady ? today : itinerary.enteredStageOn,
    stages: priced.map(one => stageAhead(tonight, resident, one)),
    groundByDay: groundOf(priced, occupancy.horizonDays),
  }
}

/** A place that is its own costs nothing; where no centre has such housing nothing can be free. */
function pricedOf(
  { state, forecast }: Tonight,
  resident: ResidentState,
  { casualtyId }: Occupancy,
  stage: StageOccupancy,
  at: number,
): Priced {
  if (stage.poolId === null) return { stage, prices: undefined }
  const claim = state.claims.find(one => one.kind === 'stay' && one.casualtyId === resident.id)
  const enclosure = state.enclosures.find(({ id }) => id === claim?.enclosureId)
  const isIn = at === 0 && stage.entersByDay.every(p => p === 0)
  const isOwn = enclosure !== undefined && poolIdOf(enclosure.centreId, enclosure.housing) === stage.poolId
  return {
    stage,
    prices: isIn && isOwn ? 'its own' : price(forecast, stage.poolId, stage.need, casualtyId),
  }
}

function stageAhead({ state, today, basis }: Tonight, resident: ResidentState, priced: Priced): StageAhead {
  const { stage, prices } = priced
  const day = (level: number) => findPassedBy(stage, level)
  // What ends beyond the forecast is drawn to its last day.
  const end = (level: number) => today + (day(level) ?? basis.input.horizonDays)
  const pool = stage.poolId === null ? undefined : basis.pools.byId.get(stage.poolId)
  const centre = state.centres.find(({ id }) => String(id) === pool?.centreId)
  return {
    no: resident.stages[stage.index]?.no ?? stage.index + 1,
    stage: stage.estimate.stage,
    centreId: centre?.id ?? null,
    centre: centre?.name ?? '',
    end: { q10: end(0.1), q25: end(0.25), median: end(0.5), q75: end(0.75), q90: end(0.9) },
    isEndKnown: day(0.5) !== undefined,
    chance: prices === undefined ? 0 : prices === 'its own' ? 1 : 1 - meanPrice(prices, stage),
    isHere: prices === 'its own',
  }
}

function groundOf(priced: readonly Priced[], days: number): number[] {
  return Array.from({ length: days }, (_, d) => {
    let there = 0
    let short = 0
    for (const { stage, prices } of priced) {
      const present = stage.presentByDay[d] ?? 0
      there += present
      short += present * (prices === 'its own' ? 0 : (prices?.[d] ?? 1))
    }
    return there === 0 ? 0 : Math.min(1, short / there)
  })
}
