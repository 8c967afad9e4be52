/**
 * What would ease the tight days of a class, each change on its own: a closure that ends earlier, one enclosure more,
 * one waiting animal's coming stage at another centre.
 * Promise: each is computed again by the forecast's own engine, exactly, for this class and for all. Offers no journey
 * out of or into a stopped site, nor out of isolation. Internal to lib/service: callers have asked permission.
 */
import { type DayNumber, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import type { CentreState, NetworkState, ResidentState } from '#lib/domain/network-state.ts'
import { roadBetweenCentres } from '#lib/domain/place.ts'
import { groupOf, speciesOf } from '#lib/domain/trade.ts'
import { type Forecast, getDemand, listClaimants, poolForecast } from '#lib/forecast/forecast.ts'
import { itineraryOf } from '#lib/forecast/itineraries.ts'
import type { Itinerary } from '#lib/forecast/model.ts'
import { type NetworkPool, poolId, poolsOf } from '#lib/forecast/pools.ts'
import { listTightDays, shortInAll, worstDay } from '#lib/forecast/tight-days.ts'
import { shortageChange, withOneMore, withPool, withWay } from '#lib/forecast/what-if.ts'
import type { Ease } from '#lib/words/weeks-why.ts'
import { HORIZON_DAYS, type Tonight } from './network.ts'
import { findResident, isInClass } from './weeks-who.ts'

const WEEK_DAYS = 7
/** Animals tried elsewhere: the likeliest on the worst day. */
const TRIED_MAX = 6
const ELSEWHERE_MAX = 2
/** A change of less is none (place-days short over the horizon). */
const MATTERS_FROM = 0.005
/** A smaller enclosure that eases nearly as much as a larger one is the one to ask for. */
const NEARLY = 0.99

export type Eased = {
  /** Null: leave it as it is. */
  readonly ease: Ease | null
  readonly tightDays: number
  readonly worst: { readonly day: DayNumber; readonly chance: number }
  /** Place-days short over the horizon in this class. */
  readonly shortHere: number
  /** Change over all classes of the network. */
  readonly change: number
}

type Window = { readonly days: number; readonly tightFrom: number; readonly worst: number }
type Tried = { readonly ease: Ease; readonly after: Forecast }

/** No rows: the changes that ease a class, what eases most first, and at last leaving it. */
export function easings(tonight: Tonight, id: string, window: Window): Eased[] {
  const pool = tonight.basis.pools.byId.get(id)
  if (pool === undefined) return []
  const { forecast } = tonight
  const tried = [
    ...openEarlier(tonight, pool),
    ...oneMore(forecast, pool),
    ...elsewhere(tonight, pool, window.worst),
  ]
  const eased = tried
    .map(({ ease, after }) => easedBy(ease, forecast, after, id, window))
    .filter(({ change }) => change <= -MATTERS_FROM)
    .sort((a, b) => a.change - b.change)
  return [...eased, easedBy(null, forecast, forecast, id, window)]
}

function easedBy(
  ease: Ease | null,
  before: Forecast,
  after: Forecast,
  id: string,
  { days, tightFrom }: Window,
): Eased {
  const { shortByDay } = poolForecast(getDemand(after, id))
  const worst = worstDay(shortByDay, days)
  return {
    ease,
    tightDays: listTightDays(shortByDay, tightFrom, days).length,
    worst: { day: before.input.today + worst.day, chance: worst.chance },
    shortHere: shortInAll(after, [id]),
    change: ease === null ? 0 : shortageChange(before, after),
  }
}

function openEarlier({ state, today, forecast }: Tonight, pool: NetworkPool): Tried[] {
  return state.closures.flatMap((closure, at) => {
    const enclosure = pool.enclosures.find(({ id }) => id === closure.enclosureId)
    if (enclosure === undefined) return []
    const shuts = dayOfInstant(closure.startsAt, state.zone)
    const instead = closure.endsAt === null ? null : dayOfInstant(closure.endsAt, state.zone)
    const opening = (on: DayNumber, ease: Ease): Tried => {
      const endsAt = startOfDay(on, state.zone)
      const changed = { ...state, closures: state.closures.with(at, { ...closure, endsAt }) }
      return { ease, after: withChanged(forecast, pool, changed, today) }
    }
    const { name } = enclosure
    if (shuts > today) return [opening(shuts, { kind: 'keep open', enclosure: name, shuts })]
    const sooner = [today + 1, ...(instead === null ? [] : [instead - WEEK_DAYS])]
    return [...new Set(sooner)]
      .filter(on => on > today && (instead === null || on < instead))
      .map(on => opening(on, { kind: 'open', enclosure: name, on, instead }))
  })
}

function withChanged(
  forecast: Forecast,
  pool: NetworkPool,
  changed: NetworkState,
  today: DayNumber,
): Forecast {
  const again = poolsOf(changed, today, HORIZON_DAYS).byId.get(pool.id)
  return again === undefined ? forecast : withPool(forecast, again)
}

/** The smallest enclosure that eases about as much as the best one would. */
function oneMore(forecast: Forecast, pool: NetworkPool): Tried[] {
  const each = pool.steps.map(({ size }, u) => {
    const after = withPool(forecast, withOneMore(pool, u))
    return { size, after, change: shortageChange(forecast, after) }
  })
  const most = Math.min(...each.map(({ change }) => change))
  const chosen = each.find(({ change }) => change <= most * NEARLY)
  if (chosen === undefined) return []
  const hasSizes = pool.steps.length > 1
  return [
    {
      ease: { kind: 'one more', housing: pool.housing, size: chosen.size, hasSizes },
      after: chosen.after,
    },
  ]
}

/** Each of the likeliest waiting animals at the centre where its stage there adds least; the best of them. */
function elsewhere(tonight: Tonight, pool: NetworkPool, worst: number): Tried[] {
  if (pool.housing === 'isolation') return []
  const waiting = listClaimants(getDemand(tonight.forecast, pool.id), worst)
    .flatMap(({ casualtyId }) => findResident(tonight, casualtyId) ?? [])
    .filter(resident => mayTravel(tonight, resident, pool))
    .slice(0, TRIED_MAX)
  return waiting
    .flatMap(resident => bestElsewhere(tonight, resident, pool) ?? [])
    .sort((a, b) => a.change - b.change)
    .slice(0, ELSEWHERE_MAX)
}

/** It waits at a centre, in other housing, and no stop holds it there. */
function mayTravel(tonight: Tonight, resident: ResidentState, pool: NetworkPool): boolean {
  const home = tonight.state.centres.find(({ id }) => id === resident.centreId)
  if (resident.keeper !== 'centre' || home === undefined || isInClass(tonight, resident, pool.id))
    return false
  return !isStopped(tonight, home, resident)
}

/** The other centre at which its stage there adds least over all classes, if it would be lived there. */
function bestElsewhere(tonight: Tonight, resident: ResidentState, pool: NetworkPool) {
  const { state, trade, forecast } = tonight
  const species = speciesOf(trade, resident.species)
  const home = state.centres.find(({ id }) => id === resident.centreId)
  if (home === undefined) return undefined
  const tried = state.centres.flatMap(centre => {
    if (String(centre.id) === pool.centreId || !centre.takes.includes(species.group_slug)) return []
    if (isStopped(tonight, centre, resident)) return []
    const way = wayElsewhere(tonight, resident, pool, centre.id)
    if (way === undefined) return []
    const after = withWay(forecast, way)
    const { km } = roadBetweenCentres(home, centre, state.travel)
    const ease: Ease = {
      kind: 'elsewhere',
      animal: species.common_name,
      reference: resident.reference,
      housing: pool.housing,
      centre: centre.name,
      km,
    }
    return [{ ease, after, change: shortageChange(forecast, after) }]
  })
  return tried.sort((a, b) => a.change - b.change)[0]
}

/** Its way if the stages still to come in this class were planned at another centre; undefined where none serves them. */
function wayElsewhere(
  { state, trade, basis, today, asAt }: Tonight,
  resident: ResidentState,
  pool: NetworkPool,
  centreId: number,
): Itinerary | undefined {
  const known = basis.itineraryById.get(resident.id)
  if (known === undefined) return undefined
  const isComing = (at: number) => at > known.firstStage && known.stages[at]?.poolId === pool.id
  const stages = resident.stages.map((stage, at) => (isComing(at) ? { ...stage, centreId } : stage))
  const way = itineraryOf({ ...resident, stages }, state, trade, basis.pools, today, asAt)
  const there = poolId(centreId, pool.housing)
  const coming = way?.stages.filter((_, at) => isComing(at)) ?? []
  return coming.length > 0 && coming.every(stage => stage.poolId === there) ? way : undefined
}

/** Neither out of nor into a site whose stop covers it; nor of a kind at high risk into one that is closed to these. */
function isStopped({ trade }: Tonight, { stop }: CentreState, { species }: ResidentState): boolean {
  if (stop === null) return false
  const group = groupOf(trade, speciesOf(trade, species).group_slug)
  if (stop.coversClass !== null && stop.coversClass !== group.class) return false
  return (
    stop.siteState === 'no-movement' ||
    (stop.siteState === 'closed-to-high-risk' && group.is_high_risk_influenza)
  )
}
