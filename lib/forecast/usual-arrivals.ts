/**
 * The animals still to come: as learned from the network's records where there are any, else from each centre's usual
 * year, a number of animals, a season and how many come at once.
 * Promise: expected numbers are kept exactly (days times rate times mean size = animals); young and adult months are
 * told apart, since adults of solitary species share with nobody. A centre under a movement stop gets none: they
 * are expected at the nearest centre that takes them. They go by the plans that records show, in the shares of the season;
 * without records by the plan for any reason. Common practice, no source: the group's first species stands for the group. Where something was learned of a stage that ends by a date, each season of admission is told apart.
 */
import { planFor } from '#lib/domain/care-plan-choice.ts'
import type { CombinedPlan } from '#lib/domain/care-plan-combination.ts'
import { ANY_REASON } from '#lib/domain/condition.ts'
import { type DayNumber, dateOfDay, dayOfInstant } from '#lib/domain/day.ts'
import type { GroupKnowledge, SpeciesKnowledge } from '#lib/domain/knowledge.ts'
import { type PlanShare, plansIn, shareOfCentre, shareOfPlan } from '#lib/domain/learned-arrivals.ts'
import { mustBeAlone, placeNeed } from '#lib/domain/need.ts'
import type { CentreState, NetworkState } from '#lib/domain/network-state.ts'
import { roadBetweenCentres } from '#lib/domain/place.ts'
import { monthOf } from '#lib/domain/season.ts'
import type { Age } from '#lib/domain/species.ts'
import { seasonOf } from '#lib/domain/stage-cell.ts'
import { groupOf, type Trade } from '#lib/domain/trade.ts'
import { placeStage } from './itineraries.ts'
import { learnedEstimate, planToday } from './learned-estimate.ts'
import type { ArrivalStream, PathStage } from './model.ts'
import type { Pools } from './pools.ts'

/** As much of a plan's animals that are young makes all of them count as young. Ours. */
const YOUNG_IF = 0.5

type Row = NetworkState['arrivals'][number]
type Season = {
  readonly isYoung: boolean
  readonly isAlone: boolean
  readonly month: number
  /** A day on which such an animal is admitted. */
  readonly admittedOn: DayNumber
  /** Season of admission, where it makes a difference; else empty. */
  readonly name: string
  /** Of the care plans they go by, put together; none: the usual one. */
  readonly planIds: readonly string[]
}

/** The streams of arrivals over the horizon, one a centre, group and kind of month; keys are stable. */
export function arrivalStreams(
  state: NetworkState,
  trade: Trade,
  pools: Pools,
  today: DayNumber,
  horizonDays: number,
): ArrivalStream[] {
  const months = monthsOf(today, horizonDays)
  const known = { state, trade, pools, today }
  return rowsOf(state, trade).flatMap(row => {
    const species = typicalSpecies(trade, row.group)
    const centre = state.centres.find(one => one.id === row.centreId)
    if (species === undefined || centre === undefined) return []
    return plansOf(trade, row.group).flatMap(plan =>
      seasonsOf(species, row, months, plan, known).flatMap(coming =>
        streamsOf(row, species, coming, centre, known),
      ),
    )
  })
}

/** The plans that a group's animals go by; without records the usual one, which none names. */
function plansOf(trade: Trade, group: string): readonly PlanOf[] {
  const learned = trade.arrivals.get(group)
  return learned === undefined ? [{ planIds: [] }] : plansIn(learned)
}

/** Of a centre that takes a group and saw it, but entered nothing of it, only records tell. */
function rowsOf({ arrivals, centres }: NetworkState, trade: Trade): Row[] {
  const seen = [...trade.arrivals.values()].flatMap(({ group, shares }) =>
    centres
      .filter(({ id, takes }) => takes.includes(group) && shares.winter.some(one => one.centreId === id))
      .filter(({ id }) => !arrivals.some(row => row.centreId === id && row.group === group))
      .map(({ id }) => ({ centreId: id, group, animalsPerYear: 0, monthShares: [], eventSizes: [1] })),
  )
  return [...arrivals, ...seen]
}

type PlanOf = Omit<PlanShare, 'share'>

type Known = {
  readonly state: NetworkState
  readonly trade: Trade
  readonly pools: Pools
  readonly today: DayNumber
}

function streamsOf(
  row: Row,
  species: SpeciesKnowledge,
  { season, eventsPerDay, broodSizePmf }: Coming,
  centre: CentreState,
  known: Known,
): ArrivalStream[] {
  const { state, trade, today } = known
  const group = groupOf(trade, row.group)
  const reopens = stoppedUntil(centre, group, state.zone, today)
  const stream = (homeId: number, key: string, events: Float64Array): ArrivalStream => ({
    key,
    stages: usualPath(row.group, species, season, homeId, known),
    eventsPerDay: events,
    broodSizePmf,
  })
  const kind = `${season.isYoung ? 'young' : 'adult'}${season.isAlone ? ':alone' : ''}`
  const named = [kind, season.name, season.planIds.join('+')].filter(part => part !== '')
  const key = [row.centreId, row.group, ...named].join(':')
  if (reopens <= 0) return [stream(centre.id, key, eventsPerDay)]
  const elsewhere = nearestOpen(state, centre, row.group)
  const later = eventsPerDay.map((events, d) => (d >= reopens ? events : 0))
  const sooner = eventsPerDay.map((events, d) => (d < reopens ? events : 0))
  return [
    stream(centre.id, key, later),
    ...(elsewhere === undefined ? [] : [stream(elsewhere, `${key}:elsewhere`, sooner)]),
  ].filter(one => one.eventsPerDay.some(events => events > 0))
}

function usualPath(
  group: string,
  species: SpeciesKnowledge,
  season: Season,
  homeId: number,
  { state, trade, pools }: Known,
): PathStage[] {
  const age = season.isYoung ? 'young' : 'adult'
  const plan = planOf(trade, species, age, season.planIds)
  const admitted = { planIds: plan.planIds, admittedOn: season.admittedOn }
  let here: number | null = homeId
  return plan.stages.map(stage => {
    const need = placeNeed(
      {
        species,
        group: groupOf(trade, group),
        age,
        id: 'to come',
        arrivalId: 'to come',
        month: season.month,
      },
      stage,
    )
    const placed = placeStage(
      state,
      pools,
      here,
      group,
      need,
      learnedEstimate(trade, admitted, stage.estimate),
    )
    here = placed.centreId ?? here
    return placed.stage
  })
}

type Coming = {
  readonly season: Season
  readonly eventsPerDay: Float64Array
  readonly broodSizePmf: readonly number[]
}

/** Those plans together as they are today; the usual one where none is named or one of them is gone. */
function planOf(trade: Trade, species: SpeciesKnowledge, age: Age, planIds: readonly string[]): CombinedPlan {
  const { slug, group_slug, class: animalClass } = species
  const animal = { species: slug, group: group_slug, class: animalClass, age }
  const named = planIds.length > 0 ? planToday(trade, planIds) : undefined
  return named ?? planFor(trade, animal, [{ condition: ANY_REASON }]).plan
}

/** Whether what is learned of such an animal's stages depends on the season of its admission. */
function isLearnedBySeason(
  trade: Trade,
  species: SpeciesKnowledge,
  age: Age,
  planIds: readonly string[],
): boolean {
  if (trade.learned.size === 0) return false
  return planOf(trade, species, age, planIds).stages.some(
    ({ estimate }) => estimate.ready.kind === 'date gate',
  )
}

/** The months of the horizon, put together where they ask for the same kind of place; of those who go by one plan. */
function seasonsOf(
  species: SpeciesKnowledge,
  row: Row,
  months: readonly Month[],
  { planIds, young }: PlanOf,
  { trade, today }: Known,
): Coming[] {
  const learned = trade.arrivals.get(row.group)
  const sizesOf = (isYoung: boolean) =>
    learned?.sizes[isYoung ? 'young' : 'grown'] ?? enteredSizes(row, isYoung)
  const seasons = new Map<string, Coming>()
  for (const { month, days, from, until } of months) {
    const isYoungSeason = isYoungMonth(species, month)
    // Records tell the age of those who go by a plan; of the others the month does.
    const isYoung = young === undefined ? isYoungSeason : young >= YOUNG_IF
    const age = isYoung ? 'young' : 'adult'
    const isAlone = mustBeAlone({ species, age, month })
    const admittedOn = today + from
    const name = isLearnedBySeason(trade, species, age, planIds) ? seasonOf(admittedOn) : ''
    const key = `${isYoung}|${isAlone}|${name}`
    const found = seasons.get(key) ?? {
      season: { isYoung, isAlone, month, admittedOn, name, planIds },
      eventsPerDay: new Float64Array(months.at(-1)?.until ?? 0),
      broodSizePmf: sizesOf(isYoung),
    }
    const entered =
      (row.animalsPerYear * (row.monthShares[month - 1] ?? 0)) /
      days /
      meanSizeOf(enteredSizes(row, isYoungSeason))
    // A month lies in one season.
    const ofCentre = learned === undefined ? 0 : shareOfCentre(learned, row.centreId, admittedOn)
    // Shares are of animals: who come singly come in more boxes than as many that come together.
    const boxes = meanSizeOf(sizesOf(isYoungSeason)) / meanSizeOf(sizesOf(isYoung))
    const ofPlan = learned === undefined ? 1 : boxes * shareOfPlan(learned, planIds, admittedOn)
    for (let d = from; d < until; d++) {
      const events = learned?.eventsPerDay[today + d - learned.from]
      found.eventsPerDay[d] = ofPlan * (events === undefined ? entered : events * ofCentre)
    }
    seasons.set(key, found)
  }
  return [...seasons.values()].filter(({ eventsPerDay }) => eventsPerDay.some(events => events > 0))
}

/** Adults come singly where nothing else was learned. */
function enteredSizes({ eventSizes }: Row, isYoung: boolean): number[] {
  return isYoung ? normalised(eventSizes) : [1]
}

function meanSizeOf(broodSizePmf: readonly number[]): number {
  return broodSizePmf.reduce((sum, share, size) => sum + share * (size + 1), 0)
}

/** Whether young of a group come in the month of a day. */
export function youngComeOn(trade: Trade, group: string): (day: DayNumber) => boolean {
  const species = typicalSpecies(trade, group)
  return day => species !== undefined && isYoungMonth(species, monthOf(day))
}

function isYoungMonth(
  { young_from_month: from, young_to_month: to }: SpeciesKnowledge,
  month: number,
): boolean {
  if (from === null || to === null) return false
  return from <= to ? month >= from && month <= to : month >= from || month <= to
}

/** A month, how many days it has, and the days of the horizon that are its: `from` up to, not with, `until`. */
type Month = { readonly month: number; readonly days: number; readonly from: number; readonly until: number }

function monthsOf(today: DayNumber, horizonDays: number): Month[] {
  const months: Month[] = []
  for (let from = 0; from < horizonDays; ) {
    const [year = 1970, month = 1, day = 1] = dateOfDay(today + from)
      .split('-')
      .map(Number)
    const days = new Date(Date.UTC(year, month, 0)).getUTCDate()
    const until = Math.min(horizonDays, from + days - day + 1)
    months.push({ month, days, from, until })
    from = until
  }
  return months
}

/** The species that stands for a group: the first listed that is not itself a stand-in, else the stand-in. */
function typicalSpecies(trade: Trade, group: string): SpeciesKnowledge | undefined {
  const members = trade.species.filter(one => one.group_slug === group)
  return members.find(one => !one.is_stand_in) ?? members[0]
}

/** Days from today until a stop that covers the group ends; Infinity without an end, 0 without a stop. */
function stoppedUntil(centre: CentreState, group: GroupKnowledge, zone: string, today: DayNumber): number {
  const { stop } = centre
  if (stop === null || stop.siteState === 'isolation-full') return 0
  const covers =
    stop.siteState === 'no-movement'
      ? stop.coversClass === null || stop.coversClass === group.class
      : group.is_high_risk_influenza
  if (!covers) return 0
  return stop.endsAt === null ? Number.POSITIVE_INFINITY : dayOfInstant(stop.endsAt, zone) - today
}

function nearestOpen(state: NetworkState, from: CentreState, group: string): number | undefined {
  const km = (centre: CentreState) => roadBetweenCentres(from, centre, state.travel).km
  return state.centres
    .filter(one => one.id !== from.id && one.takes.includes(group) && one.stop === null)
    .sort((a, b) => km(a) - km(b) || a.id - b.id)[0]?.id
}

function normalised(shares: readonly number[]): number[] {
  const total = shares.reduce((sum, share) => sum + share, 0)
  return total > 0 ? shares.map(share => share / total) : [1]
}
