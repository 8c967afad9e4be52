/**
 * The network, the trade's knowledge and the forecast of this moment, computed once for many readers.
 * Promise: everything returned belongs to one revision and one hour; a write that moves the revision is seen by the
 * next read. Kept in memory: the newest of each only. Internal to lib/service: callers have asked permission already.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { readLearned } from '#lib/db/learned.ts'
import { readLearnedArrivals } from '#lib/db/learned-arrivals.ts'
import { readHousing, readKnowledge, readNetworkTonight, readRevisions } from '#lib/db/snapshot.ts'
import { type DayNumber, dayOfInstant, shareOfDayLeft } from '#lib/domain/day.ts'
import type { HousingState, NetworkState } from '#lib/domain/network-state.ts'
import { type Trade, tradeOf } from '#lib/domain/trade.ts'
import { type Forecast, forecast } from '#lib/forecast/forecast.ts'
import { newForecastMemory } from '#lib/forecast/forecast-memory.ts'
import { type ForecastBasis, forecastInput } from '#lib/forecast/from-network.ts'
import { newInputMemory } from '#lib/forecast/input-memory.ts'
import { newWork } from '#lib/numerics/work.ts'

/** Days ahead that every forecast covers. */
export const HORIZON_DAYS = 180

const MS_PER_HOUR = 3_600_000

export type Tonight = {
  readonly state: NetworkState
  readonly trade: Trade
  readonly today: DayNumber
  /** The instant the forecast stands for: the beginning of the hour, so that one hour has one forecast. */
  readonly asAt: Date
  readonly basis: ForecastBasis
  readonly forecast: Forecast
}

const kept: {
  tonight?: { readonly key: string; readonly value: Promise<Tonight> }
  trade?: { readonly revision: number; readonly value: Promise<Trade> }
  housing?: { readonly revision: number; readonly value: Promise<HousingState> }
} = {}

/** What the last forecast leaves for the next, so that a change costs what it touches and no more. */
const memory = { input: newInputMemory(), forecast: newForecastMemory() }

/** System: what is known and expected at an instant; many callers of one revision share one computation. */
export async function readTonight(now: Date): Promise<Tonight> {
  const grant = demand(systemActor('forecast'), 'system.run')
  const asAt = new Date(Math.floor(now.getTime() / MS_PER_HOUR) * MS_PER_HOUR)
  const { revision, knowledgeRevision } = await readRevisions(grant)
  const key = `${revision}|${knowledgeRevision}|${asAt.getTime()}`
  if (kept.tonight?.key !== key) {
    const value = computeTonight(asAt)
    kept.tonight = { key, value }
    value.catch(() => {
      if (kept.tonight?.value === value) delete kept.tonight
    })
  }
  return kept.tonight.value
}

/** System: the network and the trade of an instant without a forecast, for who needs places and people only. */
export async function readState(now: Date): Promise<{ readonly state: NetworkState; readonly trade: Trade }> {
  const seen = await readNetworkTonight(demand(systemActor('network'), 'system.run'), now)
  const [trade, housing] = await Promise.all([
    tradeAt(seen.knowledgeRevision),
    housingAt(seen.housingRevision),
  ])
  return { state: { ...seen, enclosures: housing.enclosures }, trade }
}

/** System: species, conditions, care plans and what was learned, read again only when one of them changed. */
export async function readTrade(): Promise<Trade> {
  const grant = demand(systemActor('knowledge'), 'system.run')
  const { knowledgeRevision } = await readRevisions(grant)
  return tradeAt(knowledgeRevision)
}

async function tradeAt(revision: number): Promise<Trade> {
  if (kept.trade?.revision !== revision) {
    const grant = demand(systemActor('knowledge'), 'system.run')
    const reads = [readKnowledge(grant), readLearned(grant), readLearnedArrivals(grant)] as const
    const value = Promise.all(reads).then(([known, learned, coming]) => tradeOf(known, learned, coming))
    kept.trade = { revision, value }
    value.catch(() => {
      if (kept.trade?.value === value) delete kept.trade
    })
  }
  return kept.trade.value
}

async function housingAt(revision: number): Promise<HousingState> {
  if (kept.housing?.revision !== revision) {
    const value = readHousing(demand(systemActor('housing'), 'system.run'))
    kept.housing = { revision, value }
    value.catch(() => {
      if (kept.housing?.value === value) delete kept.housing
    })
  }
  return kept.housing.value
}

async function computeTonight(asAt: Date): Promise<Tonight> {
  const seen = await readNetworkTonight(demand(systemActor('forecast'), 'system.run'), asAt)
  const [trade, housing] = await Promise.all([
    tradeAt(seen.knowledgeRevision),
    housingAt(seen.housingRevision),
  ])
  const state: NetworkState = { ...seen, enclosures: housing.enclosures }
  const today = dayOfInstant(asAt, state.zone)
  const shareOfTodayLeft = shareOfDayLeft(asAt, state.zone)
  const window = { today, horizonDays: HORIZON_DAYS, shareOfTodayLeft, asAt }
  const basis = forecastInput(state, trade, window, memory.input)
  return {
    state,
    trade,
    today,
    asAt,
    basis,
    forecast: forecast(basis.input, newWork(), memory.forecast),
  }
}
