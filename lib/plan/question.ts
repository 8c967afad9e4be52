/**
 * From the call sheet and the network of this moment to the question that placement answers.
 * Promise: doors are judged at the hour of arrival, places from that hour on; homes are the pools the forecast itself
 * counts in, so that what an option adds is what Weeks ahead shows. Units: km, minutes, place-days.
 */

import type { CallFacts } from '#lib/domain/call-facts.ts'
import { feedsADay } from '#lib/domain/centre-word.ts'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { freePlaces } from '#lib/domain/free-place.ts'
import { coverAt, doorAt, instantOfMinute, minuteOfDay } from '#lib/domain/hours.ts'
import { unauthorisedAt } from '#lib/domain/licence.ts'
import { type PlaceNeed, sizedNeed } from '#lib/domain/need.ts'
import type { CentreState, NetworkState, PlannedStage, ResidentState } from '#lib/domain/network-state.ts'
import type { KeepWord, LocalTime } from '#lib/domain/option.ts'
import { type Road, roadBetween, roadBetweenCentres } from '#lib/domain/place.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import type { Point } from '#lib/domain/plus-code.ts'
import { groupOf, licencesOf, speciesOf, type Trade } from '#lib/domain/trade.ts'
import { learnedEstimate, residentEstimate } from '#lib/forecast/learned-estimate.ts'
import type { Need } from '#lib/forecast/model.ts'
import { findServing, type Pools } from '#lib/forecast/pools.ts'
import type { CentreNow, Door, PlacementQuestion, PlanPolicy, PlanStage, SiteState } from './model.ts'
import type { CallAnimals } from './newcomers.ts'
import { offerOf } from './offer.ts'

const MS_PER_MINUTE = 60_000
const MS_PER_DAY = 86_400_000
/** A finder who keeps an animal overnight is rung at this minute of the day. Ours. */
const CALL_BACK_MINUTE = 8 * 60

export type Moment = {
  readonly now: Date
  readonly today: DayNumber
  readonly state: NetworkState
  readonly trade: Trade
  readonly pools: Pools
}

/** The question of a sheet whose three facts are known: `where` in degrees, `animals` from newcomers.ts. */
export function questionOf(
  facts: CallFacts,
  animals: CallAnimals,
  where: Point,
  moment: Moment,
): PlacementQuestion {
  const { state, trade, today } = moment
  const admitted = { planIds: animals.plan.planIds, admittedOn: today }
  const { notifiable, leave, urgency } = animals
  return {
    today,
    animals: {
      count: facts.count,
      group: { id: animals.group.slug, name: animals.group.name },
      isHighRisk: animals.group.is_high_risk_influenza,
      feedsADay: feedsADay(animals.group.slug, facts.age),
      stages: animals.plan.stages.map((stage, at) =>
        stageOf(learnedEstimate(trade, admitted, stage.estimate), animals.needs[at]!),
      ),
    },
    suspect:
      notifiable.state === 'suspected'
        ? { disease: notifiable.disease, hasLeave: facts.authorityLeave !== null }
        : null,
    isLeaveAlone: leave.kind === 'leave',
    isCaught: facts.isCaught,
    hasFinder: facts.hasFinder,
    urgency: urgency.urgency,
    policy: policyOf(state),
    keep: keepOf(facts, moment),
    centres: state.centres.map(centre => centreNow(centre, animals, where, moment)),
    between: betweenCentres(state),
    practices: state.practices.map(practice => {
      const road = roadBetween(where, practice)
      return {
        id: String(practice.id),
        name: practice.name,
        phone: coverPhone(practice, arrivalBy(road, moment.now), state.zone),
        seesGroup: practice.sees.includes(animals.group.slug),
        hasCoverNow: coverAt(practice, arrivalBy(road, moment.now), state.zone).kind !== 'shut',
        road,
        toCentres: Object.fromEntries(
          state.centres.map(centre => [String(centre.id), roadBetween(practice, centre)]),
        ),
      }
    }),
    outside: state.outsidePlaces.map(place => ({
      id: String(place.id),
      name: place.name,
      phone: place.phone,
      takesGroup: place.takes.includes(animals.group.slug),
      road: roadBetween(where, place),
    })),
  }
}

type Who = Pick<CallAnimals, 'group' | 'species' | 'needs'>

/** The question of an animal in care at a centre, about the stages that are still to come; its own place counts as free. */
export function moveQuestion(
  resident: ResidentState,
  stages: readonly PlannedStage[],
  moment: Moment,
): PlacementQuestion | undefined {
  const { trade, today } = moment
  const home = moment.state.centres.find(({ id }) => id === resident.centreId)
  if (home === undefined) return undefined
  const claims = moment.state.claims.filter(claim => claim.casualtyId !== resident.id)
  const state = { ...moment.state, claims }
  const species = speciesOf(trade, resident.species)
  const group = groupOf(trade, species.group_slug)
  const needs = stages.map(stage => plannedNeed(resident, stage, trade))
  return {
    today,
    animals: {
      count: 1,
      group: { id: group.slug, name: group.name },
      isHighRisk: group.is_high_risk_influenza,
      feedsADay: feedsADay(group.slug, resident.age),
      stages: stages.map((stage, at) =>
        stageOf(residentEstimate(trade, resident, stage, state.zone), needs[at]!),
      ),
    },
    suspect: null,
    isLeaveAlone: false,
    isCaught: true,
    hasFinder: false,
    urgency: 'tomorrow',
    policy: policyOf(state),
    keep: null,
    centres: state.centres.map(centre =>
      centreNow(centre, { group, species, needs }, home, { ...moment, state }),
    ),
    between: betweenCentres(state),
    practices: [],
    outside: [],
  }
}

function stageOf(estimate: PlanStage['estimate'], need: PlaceNeed): PlanStage {
  const [first, ...rest] = need.housing.map(housing => sizedNeed(need, housing))
  const needs: [Need, ...Need[]] = [first!, ...rest]
  return { stage: need.stage, estimate, needs }
}

function centreNow(
  centre: CentreState,
  animals: Who,
  where: Point,
  { now, today, state, trade, pools }: Moment,
): CentreNow {
  const road = roadBetween(where, centre)
  const arrival = arrivalBy(road, now)
  const group = animals.group.slug
  return {
    id: String(centre.id),
    name: centre.name,
    phone: centre.phone,
    isActive: true,
    takesGroup: centre.takes.includes(group),
    lacksLicence: unauthorisedAt(licencesOf(trade, animals.species), {
      centreId: centre.id,
      day: today,
      jurisdiction: trade.jurisdiction,
    })?.meaning,
    door: doorOf(centre, arrival, state.zone),
    site: siteOf(centre, animals.species.class, state.zone),
    countedDaysAgo:
      centre.countedAt === null
        ? null
        : Math.max(0, Math.floor((now.getTime() - centre.countedAt.getTime()) / MS_PER_DAY)),
    ...saidBy(centre, arrival, state.zone),
    offer: offerOf(centre, group, state, trade, now),
    road,
    freeTonight: freePlaces(state, centre.id, animals.needs[0]!, arrival).map(place => ({
      enclosureId: String(place.enclosureId),
      placeNo: place.placeNo,
      name: `${place.name}, ${place.roomName}`,
    })),
    homes: animals.needs.map(need => findServing(pools, centre.id, need) ?? null),
  }
}

/** What a centre says of itself, as far as it still holds when the animals come. */
function saidBy({ noMoreUntil, feeding }: CentreState, arrival: Date, zone: string) {
  return {
    noMoreUntil: noMoreUntil !== null && noMoreUntil > arrival ? localTime(noMoreUntil, zone) : null,
    feeding:
      feeding !== null && feeding.until > arrival
        ? { rounds: feeding.rounds, until: localTime(feeding.until, zone) }
        : null,
  }
}

function doorOf(centre: CentreState, at: Date, zone: string): Door {
  const door = doorAt(centre, at, zone)
  switch (door.kind) {
    case 'open':
    case 'staffed':
      return { kind: door.kind }
    case 'on-call':
      return { kind: 'on-call', name: door.name, phone: door.phone }
    case 'shut':
      return { kind: 'shut', opensAt: door.opens === null ? null : localTime(door.opens, zone) }
  }
}

function siteOf({ stop }: CentreState, animalClass: 'bird' | 'mammal', zone: string): SiteState {
  if (stop === null) return { kind: 'open' }
  switch (stop.siteState) {
    case 'closed-to-high-risk':
      return { kind: 'closed to high risk' }
    case 'isolation-full':
      return { kind: 'isolation full' }
    case 'no-movement':
      return {
        kind: 'no movement',
        since: dayOfInstant(stop.startsAt, zone),
        covers: stop.coversClass === null ? 'animals' : `${stop.coversClass}s`,
        coversThese: stop.coversClass === null || stop.coversClass === animalClass,
      }
  }
}

function coverPhone(practice: NetworkState['practices'][number], at: Date, zone: string): string {
  const cover = coverAt(practice, at, zone)
  return cover.kind === 'shut' ? practice.phone : cover.phone
}

function keepOf(facts: CallFacts, { now, state }: Moment): KeepWord | null {
  if (facts.vetKeeps === null) return null
  return {
    vetName: facts.vetKeeps.vetName,
    agreedAt: localTime(new Date(facts.vetKeeps.agreedAt), state.zone),
    callBackAt: localTime(callBackAt(now, state.zone), state.zone),
    keptBy: facts.vetKeeps.keptBy,
  }
}

/** The next morning's call-back: today's when it is still to come. */
export function callBackAt(now: Date, zone: string): Date {
  const today = dayOfInstant(now, zone)
  const morning = instantOfMinute(today, CALL_BACK_MINUTE, zone)
  return morning > now ? morning : instantOfMinute(today + 1, CALL_BACK_MINUTE, zone)
}

function localTime(at: Date, zone: string): LocalTime {
  const minute = minuteOfDay(at, zone)
  const two = (value: number) => String(value).padStart(2, '0')
  return { day: dayOfInstant(at, zone), clock: `${two(Math.floor(minute / 60))}:${two(minute % 60)}` }
}

function arrivalBy(road: Road, now: Date): Date {
  return new Date(now.getTime() + road.minutes * MS_PER_MINUTE)
}

function betweenCentres(state: NetworkState): PlacementQuestion['between'] {
  return Object.fromEntries(
    state.centres.map(from => [
      String(from.id),
      Object.fromEntries(
        state.centres
          .filter(to => to.id !== from.id)
          .map(to => [String(to.id), roadBetweenCentres(from, to, state.travel)]),
      ),
    ]),
  )
}

function policyOf({ policy }: NetworkState): PlanPolicy {
  return {
    kappa: policy.kappa,
    omega: policy.omega,
    transferDays: policy.transfer_place_days,
    kmPerPlaceDay: policy.km_per_place_day,
    refusalDays: policy.refusal_place_days,
    redirectDays: policy.redirect_place_days,
    keepDays: {
      advice: policy.keep_advice_place_days,
      tomorrow: policy.keep_tomorrow_place_days,
      today: policy.keep_today_place_days,
      now: policy.keep_today_place_days,
    },
  }
}
