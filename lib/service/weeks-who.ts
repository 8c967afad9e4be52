/**
 * Who needs the scarce places of a class on a day.
 * Promise: chances are those of the forecast itself: to be there and need the place. The dates of a ribbon hold given
 * that each stage is passed. Days are day numbers. Internal to lib/service: callers have asked permission.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { ResidentState } from '#lib/domain/network-state.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import type { PoolDemand } from '#lib/forecast/demand.ts'
import { expectedAnimals } from '#lib/forecast/expected-animals.ts'
import { getDemand, price } from '#lib/forecast/forecast.ts'
import {
  findEnteredBy,
  findPassedBy,
  type Occupancy,
  occupancyOf,
  type StageOccupancy,
} from '#lib/forecast/occupancy.ts'
import { poolId as poolIdOf } from '#lib/forecast/pools.ts'
import { nowInWords } from '#lib/words/weeks-why.ts'
import type { Tonight } from './network.ts'

/** Rows that come with a ribbon; whoever is less likely follows without. */
const DRAWN_MAX = 12
/** Named from this chance on the worst day, or from that one on any day shown. */
const LEAST_CHANCE = 0.01
const LEAST_PEAK = 0.1
/** Eight weeks, as the small ribbon draws them. */
const RIBBON_DAYS = 56

export type NeederStage = {
  readonly stage: CareStage
  readonly centre: string
  readonly end: Readonly<Record<'q10' | 'q25' | 'median' | 'q75' | 'q90', DayNumber>>
}

export type Needer = {
  readonly reference: string
  readonly species: string
  readonly nowIn: string
  readonly centreId: number | null
  readonly isHere: boolean
  readonly from: DayNumber | null
  readonly until: DayNumber | null
  /** On the worst day. */
  readonly chance: number
  /** None for those of a long list who are less likely. */
  readonly ribbon: NeederRibbon | undefined
}

export type NeederRibbon = {
  readonly startDay: DayNumber
  readonly stages: readonly NeederStage[]
  /** The chance that no proper place is free, today and each day after it. */
  readonly groundByDay: readonly number[]
}

export type Needers = {
  readonly all: readonly Needer[]
  /** Animals still to come that are expected to need a place on the worst day. */
  readonly unknownAnimals: number
}

/**
 * No rows: who is likely to need a place of a class within `days` days, the likeliest on the worst day first (an index
 * from today).
 */
export function needersOn(tonight: Tonight, poolId: string, worst: number, days: number): Needers {
  const demand = getDemand(tonight.forecast, poolId)
  const all = claimsOver(demand, worst, days).flatMap(({ casualtyId, chance }, at) => {
    const resident = findResident(tonight, casualtyId)
    return resident === undefined ? [] : (neederOf(tonight, poolId, resident, chance, at < DRAWN_MAX) ?? [])
  })
  return { all, unknownAnimals: expectedAnimals(demand, worst).unknown }
}

function claimsOver({ classes }: PoolDemand, worst: number, days: number) {
  return classes
    .flatMap(({ companies }) => companies.flatMap(({ members }) => members))
    .map(({ casualtyId, presence }) => ({
      casualtyId,
      chance: Math.min(1, presence[worst] ?? 0),
      peak: presence.subarray(0, days).reduce((most, p) => Math.max(most, p), 0),
    }))
    .filter(({ chance, peak }) => chance >= LEAST_CHANCE || peak >= LEAST_PEAK)
    .sort((a, b) => b.chance - a.chance || b.peak - a.peak || (a.casualtyId < b.casualtyId ? -1 : 1))
}

/** No rows: an animal in care by the id that the forecast gives it. */
export function findResident({ state }: Tonight, casualtyId: string): ResidentState | undefined {
  return state.residents.find(({ id }) => String(id) === casualtyId)
}

/** No rows: whether it lives in an enclosure of the class now. */
export function isInClass({ state }: Tonight, { enclosureId }: ResidentState, poolId: string): boolean {
  const enclosure = state.enclosures.find(({ id }) => id === enclosureId)
  return enclosure !== undefined && poolIdOf(enclosure.centreId, enclosure.housing) === poolId
}

function neederOf(
  tonight: Tonight,
  poolId: string,
  resident: ResidentState,
  chance: number,
  isDrawn: boolean,
): Needer | undefined {
  const { state, trade, today, basis } = tonight
  const itinerary = basis.itineraryById.get(resident.id)
  if (itinerary === undefined) return undefined
  const occupancy = occupancyOf(itinerary, basis.input)
  const first = occupancy.stages.findIndex(stage => stage.poolId === poolId)
  const last = occupancy.stages.findLast(stage => stage.poolId === poolId)
  const entering = occupancy.stages[first]
  const dayOf = (index: number | undefined) => (index === undefined ? null : today + index)
  const enclosure = state.enclosures.find(({ id }) => id === resident.enclosureId)
  const centre = state.centres.find(({ id }) => id === resident.centreId)
  return {
    reference: resident.reference,
    species: speciesOf(trade, resident.species).common_name,
    nowIn: nowInWords(resident.keeper, centre?.name ?? null, enclosure?.name ?? null),
    centreId: resident.centreId,
    isHere: isInClass(tonight, resident, poolId),
    from: entering === undefined ? null : dayOf(findEnteredBy(entering, 0.5)),
    until: last === undefined ? null : dayOf(findPassedBy(last, 0.5)),
    chance,
    ribbon: isDrawn
      ? {
          startDay: Math.max(itinerary.enteredStageOn, today - 1),
          stages: occupancy.stages.map(stage => stageShown(tonight, stage)),
          groundByDay: groundOf(tonight, occupancy),
        }
      : undefined,
  }
}

function stageShown({ state, today, basis }: Tonight, stage: StageOccupancy): NeederStage {
  // What ends beyond the forecast is drawn to its last day.
  const end = (level: number) => today + (findPassedBy(stage, level) ?? basis.input.horizonDays)
  const pool = stage.poolId === null ? undefined : basis.pools.byId.get(stage.poolId)
  return {
    stage: stage.estimate.stage,
    centre: state.centres.find(({ id }) => String(id) === pool?.centreId)?.name ?? '',
    end: { q10: end(0.1), q25: end(0.25), median: end(0.5), q75: end(0.75), q90: end(0.9) },
  }
}

/** The stage it is in keeps its place; a later one finds none at the price of its class without this animal. */
function groundOf({ forecast }: Tonight, { casualtyId, stages }: Occupancy): number[] {
  const priced = stages.map((stage, at) => {
    if (stage.poolId === null) return undefined
    const isHere = at === 0 && stage.entersByDay.every(p => p === 0)
    return isHere ? 'its own' : price(forecast, stage.poolId, stage.need, casualtyId)
  })
  return Array.from({ length: RIBBON_DAYS }, (_, d) => {
    let there = 0
    let short = 0
    for (const [at, { presentByDay }] of stages.entries()) {
      const present = presentByDay[d] ?? 0
      const prices = priced[at]
      there += present
      short += present * (prices === 'its own' ? 0 : (prices?.[d] ?? 1))
    }
    return there === 0 ? 0 : Math.min(1, short / there)
  })
}
