/**
 * Weeks ahead: the network at a glance, one class of one centre in full, and both as tables for a spreadsheet.
 * Promise: shows the very forecast that the options of a call use, of this revision and hour; a carer sees only own
 * centres. A place is an enclosure here; chances of being short are lower bounds, since re-housing is free.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand, type Grant, reaches } from '#lib/authz/demand.ts'
import { countInUse, listShut } from '#lib/db/past-nights.ts'
import { type DayNumber, startOfDay } from '#lib/domain/day.ts'
import { HOUSING_TYPES, type HousingType } from '#lib/domain/housing.ts'
import type { CentreState } from '#lib/domain/network-state.ts'
import { parse } from '#lib/domain/parse.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { dayCountDemand, type Forecast, getDemand, poolForecast } from '#lib/forecast/forecast.ts'
import { type NetworkPool, poolId } from '#lib/forecast/pools.ts'
import { shortBracket } from '#lib/forecast/short-bracket.ts'
import { listTightDays, shortInAll, worstDay } from '#lib/forecast/tight-days.ts'
import { Failure, isFailure } from '#lib/kernel/failure.ts'
import { HORIZON_DAYS, readTonight, type Tonight } from './network.ts'
import { type Eased, easings } from './weeks-ease.ts'
import {
  type ClassShown,
  classShown,
  type FanShown,
  fanShown,
  fanWithPast,
  type ShutDays,
  type SizeShown,
  shutDays,
  sizesShown,
  tightestOf,
} from './weeks-view.ts'
import { type Needers, needersOn } from './weeks-who.ts'
import { type WeekNote, weekNotes } from './weeks-why.ts'

/** How far the pictures can reach. */
export const WEEKS_DAYS = [14, 60, HORIZON_DAYS] as const
const FIRST_DAYS = 60
const PAST_NIGHTS = 28
/** A bracket narrower than this says nothing. */
const BRACKET_FROM = 0.01

const days = z.coerce.number().pipe(z.literal(WEEKS_DAYS)).default(FIRST_DAYS)
const overviewQuery = z.object({ days })
const classQuery = z.object({ days, housing: z.enum(HOUSING_TYPES).optional() })

/** When and from what the forecast was made, and from which chance a day is tight. */
export type Made = {
  readonly today: DayNumber
  readonly asAt: Date
  readonly zone: string
  readonly revision: number
  readonly horizonDays: number
  readonly days: number
  readonly tightFrom: number
  /** The learning run whose stays and arrivals it uses; null where nothing is learned. */
  readonly learning: number | null
}

export type InAll = { readonly placeDays: number; readonly isNetwork: boolean }
export type NotIn = { readonly reference: string; readonly species: string }

export type WeeksShown = {
  readonly made: Made
  readonly classes: readonly ClassShown[]
  readonly tightest: ClassShown | undefined
  readonly inAll: InAll
  readonly unplanned: readonly NotIn[]
  /** Animals of which some stage to come needs housing that no centre has. */
  readonly unhoused: readonly NotIn[]
}

export type SecondCount = {
  readonly fan: FanShown
  readonly midnightShortByDay: readonly number[]
  readonly worst: { readonly day: DayNumber; readonly chance: number; readonly atMidnight: number }
}

export type ClassInFull = {
  readonly shown: ClassShown
  readonly fan: FanShown
  readonly sizes: readonly SizeShown[]
  readonly shut: readonly ShutDays[]
  readonly tight: readonly DayNumber[]
  readonly bracket: { readonly lower: number; readonly upper: number } | undefined
  readonly notes: readonly WeekNote[]
  readonly needers: Needers
  readonly easings: readonly Eased[]
  readonly secondCount: SecondCount | undefined
}

export type WeeksOfCentre = {
  readonly made: Made
  readonly centre: { readonly id: number; readonly name: string; readonly countedAt: Date | null }
  readonly housing: HousingType | undefined
  /** What the centre has. */
  readonly housings: readonly HousingType[]
  /** Centres that have the housing, where this one lacks it. */
  readonly elsewhere: readonly { readonly id: number; readonly name: string }[]
  readonly inAll: InAll
  readonly full: ClassInFull | undefined
}

/** The network's weeks; undefined before a network was set up. */
export async function readWeeks(actor: Actor, query: unknown, now: Date): Promise<WeeksShown | undefined> {
  const grant = demand(actor, 'forecast.read')
  const asked = parse(overviewQuery, query)
  const tonight = await findTonight(now)
  return tonight && overviewOf(grant, tonight, asked.days)
}

/** One centre's weeks in one kind of housing, by itself the tightest of the centre. */
export async function readWeeksOfCentre(
  actor: Actor,
  centreId: number,
  query: unknown,
  now: Date,
): Promise<WeeksOfCentre> {
  const grant = demand(actor, 'forecast.read', { centreIds: [centreId] })
  const asked = parse(classQuery, query)
  const tonight = await readTonight(now)
  const centre = getCentre(tonight, centreId)
  const made = madeOf(tonight, asked.days)
  const classes = reachedPools(grant, tonight)
    .filter(pool => pool.centreId === String(centreId))
    .map(pool => classShown(tonight.forecast, pool, centre.name, made))
  const housing = asked.housing ?? tightestOf(classes)?.housing
  const shown = classes.find(one => one.housing === housing)
  return {
    made,
    centre: { id: centre.id, name: centre.name, countedAt: centre.countedAt },
    housing,
    housings: HOUSING_TYPES.filter(type => classes.some(one => one.housing === type)),
    elsewhere: housing === undefined ? [] : centresWith(grant, tonight, housing),
    inAll: inAllOf(grant, tonight),
    full: shown && (await inFull(grant, tonight, shown, made)),
  }
}

/** What a forecast is made of, or undefined while there is no network. */
async function findTonight(now: Date): Promise<Tonight | undefined> {
  try {
    return await readTonight(now)
  } catch (thrown) {
    if (isFailure(thrown) && thrown.rule === 'network-not-set-up') return undefined
    throw thrown
  }
}

/** The overview of a network already read. */
export function overviewOf(grant: Grant<'forecast.read'>, tonight: Tonight, shownDays: number): WeeksShown {
  const made = madeOf(tonight, shownDays)
  const classes = reachedPools(grant, tonight).map(pool =>
    classShown(tonight.forecast, pool, getCentre(tonight, Number(pool.centreId)).name, made),
  )
  return {
    made,
    classes,
    tightest: tightestOf(classes),
    inAll: inAllOf(grant, tonight),
    unplanned: namedIn(grant, tonight, id => tonight.basis.unplannedIds.includes(id)),
    unhoused: namedIn(grant, tonight, id => {
      const itinerary = tonight.basis.itineraryById.get(id)
      return itinerary?.stages.some((one, at) => at >= itinerary.firstStage && one.poolId === null) ?? false
    }),
  }
}

function madeOf({ state, trade, today, asAt }: Tonight, shownDays: number): Made {
  const { zone, revision, policy } = state
  const tightFrom = policy.tight_chance
  const learning = trade.source?.run ?? null
  return { today, asAt, zone, revision, horizonDays: HORIZON_DAYS, days: shownDays, tightFrom, learning }
}

async function inFull(
  grant: Grant<'forecast.read'>,
  tonight: Tonight,
  shown: ClassShown,
  made: Made,
): Promise<ClassInFull> {
  const { forecast, basis } = tonight
  const { today, zone, tightFrom, days: shownDays } = made
  const nights = Array.from({ length: PAST_NIGHTS }, (_, i) => startOfDay(today - PAST_NIGHTS + i + 1, zone))
  const [inUse, spans] = await Promise.all([
    countInUse(grant, shown, nights),
    listShut(grant, shown, startOfDay(today - PAST_NIGHTS, zone)),
  ])
  const shut = spans.map(span => shutDays(span, zone))
  const found = poolForecast(getDemand(forecast, shown.poolId))
  const tight = listTightDays(found.shortByDay, tightFrom, shownDays)
  const enclosures = basis.pools.byId.get(shown.poolId)?.enclosures.length ?? 0
  const aheadByDay = [...(found.thresholds[0]?.capacityByDay.slice(0, shownDays) ?? [])]
  return {
    shown,
    fan: fanWithPast(shown.fan, inUse, { enclosures, aheadByDay }, shut),
    sizes: sizesShown(found, today, shownDays),
    shut: shut.filter(({ until }) => until === null || until > today),
    tight: tight.map(d => today + d),
    notes: tight.length === 0 ? [] : weekNotes(tonight, shown.poolId, tight, shut),
    ...keptWork(tonight, shown, made),
  }
}

/** The ends on a day, where they lie more than a percentage point apart. */
function bracketOn(forecast: Forecast, id: string, day: number) {
  const { lowerByDay, upperByDay } = shortBracket(getDemand(forecast, id))
  const [lower, upper] = [lowerByDay[day] ?? 0, upperByDay[day] ?? 0]
  return upper - lower > BRACKET_FROM ? { lower, upper } : undefined
}

function secondCount(forecast: Forecast, { poolId: id, fan }: ClassShown, shownDays: number): SecondCount {
  const { today } = forecast.input
  const found = poolForecast(dayCountDemand(forecast, id))
  const worst = worstDay(found.shortByDay, shownDays)
  return {
    fan: fanShown(found, today, shownDays),
    midnightShortByDay: fan.shortByDay,
    worst: { day: today + worst.day, chance: worst.chance, atMidnight: fan.shortByDay[worst.day] ?? 0 },
  }
}

type Worked = Pick<ClassInFull, 'bracket' | 'needers' | 'easings' | 'secondCount'>
const worked = new WeakMap<Forecast, Map<string, Worked>>()

/** What one forecast says of a class is computed once, whoever asks. */
function keptWork(tonight: Tonight, shown: ClassShown, { days: shownDays, tightFrom }: Made): Worked {
  const { forecast, today } = tonight
  const ofForecast = worked.get(forecast) ?? new Map<string, Worked>()
  worked.set(forecast, ofForecast)
  const key = `${shown.poolId}|${shownDays}`
  const known = ofForecast.get(key)
  if (known !== undefined) return known
  const worst = shown.worst.day - today
  const made = {
    bracket: bracketOn(forecast, shown.poolId, worst),
    needers: needersOn(tonight, shown.poolId, worst, shownDays),
    easings:
      shown.tightDays === 0 ? [] : easings(tonight, shown.poolId, { days: shownDays, tightFrom, worst }),
    secondCount: shown.housing === 'intensive-care' ? secondCount(forecast, shown, shownDays) : undefined,
  }
  ofForecast.set(key, made)
  return made
}

function reachedPools({ scope }: Grant<'forecast.read'>, { basis, state }: Tonight): NetworkPool[] {
  return basis.pools.all.filter(
    ({ centreId }) =>
      reaches(scope, { centreIds: [Number(centreId)] }) &&
      state.centres.some(({ id }) => String(id) === centreId),
  )
}

function centresWith(grant: Grant<'forecast.read'>, { state, basis }: Tonight, housing: HousingType) {
  return state.centres
    .filter(
      ({ id }) => reaches(grant.scope, { centreIds: [id] }) && basis.pools.byId.has(poolId(id, housing)),
    )
    .map(({ id, name }) => ({ id, name }))
}

function inAllOf(grant: Grant<'forecast.read'>, tonight: Tonight): InAll {
  const isNetwork = grant.scope.kind === 'everywhere'
  const ids = isNetwork ? tonight.basis.pools.all : reachedPools(grant, tonight)
  return {
    placeDays: shortInAll(
      tonight.forecast,
      ids.map(({ id }) => id),
    ),
    isNetwork,
  }
}

function namedIn(
  { scope }: Grant<'forecast.read'>,
  { state, trade }: Tonight,
  is: (casualtyId: number) => boolean,
): NotIn[] {
  return state.residents
    .filter(one => is(one.id) && reaches(scope, { centreIds: one.centreId === null ? [] : [one.centreId] }))
    .map(one => ({ reference: one.reference, species: speciesOf(trade, one.species).common_name }))
}

function getCentre({ state }: Tonight, centreId: number): CentreState {
  const centre = state.centres.find(({ id }) => id === centreId)
  if (centre === undefined) throw new Failure('not-found')
  return centre
}
