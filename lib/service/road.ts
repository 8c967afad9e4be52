/**
 * The road as the desk sees it: journeys that run, one of them, the form that plans one, and what is in trouble.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand, may } from '#lib/authz/demand.ts'
import {
  findJourneyOf,
  type GoalChoice,
  getJourney,
  type JourneyView,
  type LegView,
  listDriverChoices,
  listGoals,
  listJourneys,
  listTravellers,
  type Travels,
} from '#lib/db/road-list.ts'
import { listStoppedJourneys, type StoppedJourney } from '#lib/db/stopped-road.ts'
import { type DriverReadiness, readinessAt } from '#lib/domain/driver.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { getNetworkFacts } from './network-facts.ts'

export type { JourneyView, LegView, StoppedJourney }

export type DriverOffered = {
  readonly id: number
  readonly name: string
  readonly phone: string
  readonly area: string
  readonly vehicle: string
  readonly readiness: DriverReadiness
}

export type JourneyPage = {
  readonly journey: JourneyView
  readonly drivers: readonly DriverOffered[]
  readonly mayArrange: boolean
  readonly isBegun: boolean
  /** Movement stops that stand against it. */
  readonly stops: readonly StoppedJourney[]
}

/** One journey with who else could drive. */
export async function readJourney(actor: Actor, id: number, now: Date): Promise<JourneyPage> {
  const grant = demand(actor, 'move.read')
  const journey = await getJourney(grant, id)
  return {
    journey,
    drivers: await readDrivers(actor, now),
    stops: journey.endedAt === null ? await listStoppedJourneys(grant, now, id) : [],
    mayArrange: may(actor, 'move.arrange') && journey.endedAt === null,
    isBegun: journey.legs.some(({ hasItAt }) => hasItAt !== null),
  }
}

/** The journeys that run. */
export async function readJourneys(actor: Actor): Promise<JourneyView[]> {
  return listJourneys(demand(actor, 'move.read'))
}

export type PlanForm = {
  /** The animal asked for first, then those that came with it and are in the same place. */
  readonly travellers: readonly Travels[]
  readonly centres: readonly GoalChoice[]
  readonly practices: readonly GoalChoice[]
  readonly drivers: readonly DriverOffered[]
}

/** What planning a journey for an animal needs. Failure 'not-found' where it is closed or on one already. */
export async function readPlanForm(actor: Actor, reference: string, now: Date): Promise<PlanForm> {
  demand(actor, 'move.arrange')
  const grant = demand(actor, 'move.read')
  const [travellers, goals, drivers] = await Promise.all([
    listTravellers(grant, reference),
    listGoals(grant),
    readDrivers(actor, now),
  ])
  if (travellers[0]?.reference !== reference) throw new Failure('not-found')
  return { travellers, ...goals, drivers }
}

/** The journey an animal is on, for its card. */
export async function readJourneyOf(actor: Actor, casualtyId: number): Promise<JourneyView | undefined> {
  return findJourneyOf(demand(actor, 'casualty.read'), casualtyId)
}

export type RoadTrouble = { readonly journey: JourneyView; readonly leg: LegView }

/** Legs that somebody has to see to now; for the line's alarm. */
export async function readRoadTrouble(actor: Actor): Promise<RoadTrouble[]> {
  const journeys = await listJourneys(demand(actor, 'move.read'))
  return journeys.flatMap(journey =>
    journey.legs.filter(({ trouble }) => trouble !== undefined).map(leg => ({ journey, leg })),
  )
}

/** Journeys that a movement stop stands against now; for the line's alarm. */
export async function readStoppedRoad(actor: Actor, now: Date): Promise<StoppedJourney[]> {
  return listStoppedJourneys(demand(actor, 'move.read'), now)
}

const READY: readonly DriverReadiness[] = ['in hours', 'at night', 'out of hours']

/** Who can be rung now stands first. */
async function readDrivers(actor: Actor, now: Date): Promise<DriverOffered[]> {
  const [drivers, { zone }] = await Promise.all([
    listDriverChoices(demand(actor, 'move.read')),
    getNetworkFacts(),
  ])
  return drivers
    .map(({ hours, drivesAtNight, ...driver }) => ({
      ...driver,
      readiness: readinessAt({ hours, drivesAtNight }, now, zone),
    }))
    .sort((a, b) => READY.indexOf(a.readiness) - READY.indexOf(b.readiness))
}
