/**
 * Journeys as they are shown: animals, legs, drivers, links; those that run, and what of them is in trouble.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { OpeningHours } from '#lib/domain/hours.ts'
import {
  JOURNEY_ANIMAL_STATES,
  type JourneyAnimalState,
  type LegState,
  type Trouble,
  troubleOf,
} from '#lib/domain/road.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'
import { legStateOf } from './road.ts'

export type LegView = {
  readonly id: number
  readonly legNo: number
  /** Null: the finder drives. */
  readonly driverId: number | null
  readonly driver: string | null
  readonly phone: string | null
  readonly fromWords: string
  readonly toWords: string
  readonly pickUpAt: Date
  readonly dueAt: Date
  readonly state: LegState
  readonly hasItAt: Date | null
  readonly endedAt: Date | null
  readonly reason: string | null
  readonly lateAt: Date | null
  readonly trouble: Trouble | undefined
  /** The newest link that still opens something. */
  readonly link: { readonly expiresAt: Date; readonly openedAt: Date | null } | null
}

export type JourneyAnimalView = {
  readonly casualtyId: number
  readonly reference: string
  readonly species: string
  readonly speciesSlug: string
  readonly age: string
  readonly isDiseaseSuspect: boolean
  readonly conditions: readonly string[]
  readonly state: JourneyAnimalState
  /** The enclosure kept for it at the centre it goes to. */
  readonly held: string | null
}

export type JourneyView = {
  readonly id: number
  readonly from: string | null
  readonly fromPhone: string | null
  readonly to: string
  readonly toPhone: string
  readonly isToCentre: boolean
  readonly carry: string
  readonly turnedAt: Date | null
  readonly endedAt: Date | null
  readonly animals: readonly JourneyAnimalView[]
  readonly legs: readonly LegView[]
}

const included = {
  fromCentre: { select: { name: true, phone: true } },
  toCentre: { select: { id: true, name: true, phone: true } },
  toPractice: { select: { name: true, phone: true } },
  animals: {
    orderBy: { casualtyId: 'asc' },
    include: {
      casualty: {
        select: {
          reference: true,
          age: true,
          speciesSlug: true,
          isDiseaseSuspect: true,
          species: { select: { commonName: true } },
          findingByCasualtyId: {
            where: { isVoid: false, findingBySupersedes: { is: null } },
            select: { conditionSlug: true },
          },
          claimByCasualtyId: {
            where: { kind: 'hold', state: 'live' },
            orderBy: { id: 'asc' },
            select: { enclosure: { select: { name: true, centreId: true } } },
          },
        },
      },
    },
  },
  legs: {
    orderBy: [{ legNo: 'asc' }, { id: 'asc' }],
    include: {
      driver: { select: { name: true, phone: true } },
      links: {
        where: { usedAt: null, revokedAt: null },
        orderBy: { id: 'desc' },
        take: 1,
        select: { expiresAt: true, openedAt: true },
      },
    },
  },
} as const satisfies Prisma.JourneyInclude

type Row = Prisma.JourneyGetPayload<{ include: typeof included }>
type Reads = Grant<'move.read' | 'casualty.read' | 'system.run'>

/** A journey. Failure 'not-found' without it. */
export async function getJourney(_grant: Reads, id: number): Promise<JourneyView> {
  const row = await db().journey.findUnique({ where: { id }, include: included })
  if (row === null) throw new Failure('not-found')
  return journeyOf(row)
}

/** The journeys that run, the earliest first. */
export async function listJourneys(_grant: Reads): Promise<JourneyView[]> {
  const rows = await db().journey.findMany({
    where: { endedAt: null },
    include: included,
    orderBy: [{ madeAt: 'asc' }, { id: 'asc' }],
  })
  return rows.map(journeyOf)
}

/** The journey an animal is on. */
export async function findJourneyOf(_grant: Reads, casualtyId: number): Promise<JourneyView | undefined> {
  const row = await db().journey.findFirst({
    where: { animals: { some: { casualtyId, state: 'open' } } },
    include: included,
  })
  return row === null ? undefined : journeyOf(row)
}

export type DriverChoice = {
  readonly id: number
  readonly name: string
  readonly phone: string
  readonly area: string
  readonly vehicle: string
  readonly drivesAtNight: boolean
  readonly hours: readonly OpeningHours[]
}

/** Drivers that are switched on, by name. */
export async function listDriverChoices(_grant: Grant<'move.read'>): Promise<DriverChoice[]> {
  const rows = await db().driver.findMany({
    where: { isActive: true },
    orderBy: { name: 'asc' },
    include: { driverHoursByDriverId: { select: { weekday: true, opensMinute: true, closesMinute: true } } },
  })
  return rows.map(({ driverHoursByDriverId, ...row }) => ({ ...row, hours: driverHoursByDriverId }))
}

export type Travels = {
  readonly casualtyId: number
  readonly reference: string
  readonly species: string
  readonly keeper: string
  readonly centreId: number | null
  readonly centre: string | null
  readonly heldAtCentreId: number | null
  readonly heldAt: string | null
}

/** An animal and those that came with it and are in the same place: who could go on one journey. */
export async function listTravellers(_grant: Grant<'move.read'>, reference: string): Promise<Travels[]> {
  return db().$queryRaw<Travels[]>`
    with asked as (
      select c.id, c.arrival_id, w.keeper, w.centre_id from casualty c
        join whereabouts w on w.casualty_id = c.id and w.until is null and w.keeper <> 'nobody'
       where c.reference = ${reference}::text order by c.given_on desc limit 1)
    select c.id as "casualtyId", c.reference, s.common_name as species, w.keeper, w.centre_id as "centreId",
           ce.name as centre, h.centre_id as "heldAtCentreId", hc.name as "heldAt"
      from asked a join casualty c on c.id = a.id or c.arrival_id = a.arrival_id
      join species s on s.slug = c.species_slug
      join whereabouts w on w.casualty_id = c.id and w.until is null and w.keeper = a.keeper
        and w.centre_id is not distinct from a.centre_id
      left join centre ce on ce.id = w.centre_id
      left join lateral (
        select e.centre_id from claim k join enclosure e on e.id = k.enclosure_id
         where k.casualty_id = c.id and k.kind = 'hold' and k.state = 'live'
           and e.centre_id is distinct from w.centre_id order by k.id limit 1) h on true
      left join centre hc on hc.id = h.centre_id
     where not exists (select from journey_animal j where j.casualty_id = c.id and j.state = 'open')
     order by c.id <> a.id, c.id`
}

export type GoalChoice = { readonly id: number; readonly name: string }

/** Where a journey can lead. */
export async function listGoals(
  _grant: Grant<'move.read'>,
): Promise<{ readonly centres: readonly GoalChoice[]; readonly practices: readonly GoalChoice[] }> {
  const asked = {
    where: { isActive: true },
    orderBy: { name: 'asc' },
    select: { id: true, name: true },
  } as const
  const [centres, practices] = await Promise.all([db().centre.findMany(asked), db().practice.findMany(asked)])
  return { centres, practices }
}

function journeyOf(row: Row): JourneyView {
  const legs = row.legs.map(leg => ({ ...leg, state: legStateOf(leg.state) }))
  return {
    id: row.id,
    from: row.fromCentre?.name ?? null,
    fromPhone: row.fromCentre?.phone ?? null,
    to: row.toCentre?.name ?? row.toPractice?.name ?? '',
    toPhone: row.toCentre?.phone ?? row.toPractice?.phone ?? '',
    isToCentre: row.toCentre !== null,
    carry: row.carry,
    turnedAt: row.turnedAt,
    endedAt: row.endedAt,
    animals: row.animals.map(({ casualtyId, state, casualty }) => ({
      casualtyId,
      reference: casualty.reference,
      species: casualty.species.commonName,
      speciesSlug: casualty.speciesSlug,
      age: casualty.age,
      isDiseaseSuspect: casualty.isDiseaseSuspect,
      conditions: casualty.findingByCasualtyId.map(({ conditionSlug }) => conditionSlug),
      state: JOURNEY_ANIMAL_STATES.find(one => one === state) ?? 'ended',
      held:
        casualty.claimByCasualtyId.find(({ enclosure }) => enclosure.centreId === row.toCentre?.id)?.enclosure
          .name ?? null,
    })),
    legs: legs.map(leg => ({
      id: leg.id,
      legNo: leg.legNo,
      driverId: leg.driverId,
      driver: leg.driver?.name ?? null,
      phone: leg.driver?.phone ?? null,
      fromWords: leg.fromWords,
      toWords: leg.toWords,
      pickUpAt: leg.pickUpAt,
      dueAt: leg.dueAt,
      state: leg.state,
      hasItAt: leg.hasItAt,
      endedAt: leg.endedAt,
      reason: leg.reason,
      lateAt: leg.lateAt,
      trouble: row.endedAt === null ? troubleOf(leg, legs) : undefined,
      link: leg.links[0] ?? null,
    })),
  }
}
