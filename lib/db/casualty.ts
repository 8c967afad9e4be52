/**
 * One casualty as it stands: what it is, where, what is kept for it, what is due, what stands against the rules.
 * Promise: read as recorded, nothing derived that another table settles. Instants are UTC; due days are day numbers.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { FOUND, type Found } from '#lib/domain/check-result.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import type { Span } from '#lib/domain/precision.ts'
import type { Age } from '#lib/domain/species.ts'
import type { ShortCause } from '#lib/domain/who-is-where.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { Keeper } from './casualty-list.ts'
import { db } from './client.ts'
import { spanOfRow } from './entered.ts'

const MS_PER_DAY = 86_400_000

/** The newest casualty of a reference: one may be given again after two years. */
export async function findCasualtyId(
  _grant: Grant<'system.run'>,
  reference: string,
): Promise<number | undefined> {
  const found = await db().casualty.findFirst({
    where: { reference },
    orderBy: { givenOn: 'desc' },
    select: { id: true },
  })
  return found?.id
}

export type CasualtyHead = {
  readonly id: number
  readonly reference: string
  readonly species: string
  readonly age: Age
  readonly isAlone: boolean
  readonly isDiseaseSuspect: boolean
  readonly leaveWords: string | null
  readonly arrival: { readonly id: number; readonly at: Date; readonly foundWords: string }
  readonly callId: number | null
  /** References of those that came with it. */
  readonly mates: readonly string[]
  readonly findings: readonly {
    readonly condition: string
    readonly name: string
    readonly severity: string
  }[]
}

/** What it is and how it came. */
export async function getCasualtyHead(_grant: Grant<'casualty.read'>, id: number): Promise<CasualtyHead> {
  const row = await db().casualty.findUnique({
    where: { id },
    include: {
      arrival: {
        include: { casualtyByArrivalId: { select: { id: true, reference: true }, orderBy: { id: 'asc' } } },
      },
      findingByCasualtyId: {
        where: { isVoid: false, findingBySupersedes: { is: null } },
        orderBy: { id: 'asc' },
        include: { condition: { select: { name: true } } },
      },
    },
  })
  if (row === null) throw new Failure('not-found')
  return {
    id,
    reference: row.reference,
    species: row.speciesSlug,
    age: ageOf(row.age),
    isAlone: row.isAlone,
    isDiseaseSuspect: row.isDiseaseSuspect,
    leaveWords: row.authorityLeaveWords,
    arrival: { id: row.arrivalId, at: row.arrival.at, foundWords: row.arrival.foundWords },
    callId: row.arrival.callId,
    mates: row.arrival.casualtyByArrivalId.filter(one => one.id !== id).map(one => one.reference),
    findings: row.findingByCasualtyId.map(({ conditionSlug, severity, condition }) => ({
      condition: conditionSlug,
      name: condition.name,
      severity,
    })),
  }
}

function ageOf(text: string): Age {
  return text === 'adult' || text === 'young' ? text : 'unknown'
}

export type CasualtyNow = {
  readonly keepingId: number
  readonly keeper: Keeper
  readonly keeperName: string | null
  readonly keeperPhone: string | null
  readonly centreId: number | null
  readonly centre: string | null
  readonly enclosureId: number | null
  readonly enclosure: string | null
  readonly room: string | null
  readonly since: Date
  readonly outcome: Outcome | null
  readonly short: ShortCause | null
  readonly againstRule: readonly ('stop' | 'reopened')[]
  readonly leavesAt: Date | null
}

/** Who has it now, where, and what is wrong with that. */
export async function getCasualtyNow(
  _grant: Grant<'casualty.read'>,
  id: number,
  now: Date,
): Promise<CasualtyNow> {
  const [row] = await db().$queryRaw<CasualtyNow[]>`
    select w.keeping_id as "keepingId", w.keeper, coalesce(pr.name, dr.name) as "keeperName",
           coalesce(pr.phone, dr.phone, ce.phone) as "keeperPhone", w.centre_id as "centreId", ce.name as centre,
           w.enclosure_id as "enclosureId", e.name as enclosure, r.name as room, w.since, k.outcome,
           (select x.because from short x where x.casualty_id = w.casualty_id and x.keeping_id = w.keeping_id
               and x.starts_at <= ${now}::timestamptz and (x.ends_at is null or x.ends_at > ${now}::timestamptz)
             limit 1) as short,
           array(select a.because from against_the_rule a
              where a.casualty_id = w.casualty_id and a.keeping_id = w.keeping_id) as "againstRule",
           (select d.at from departure d where d.casualty_id = w.casualty_id and d.state = 'booked'
             order by d.id desc limit 1) as "leavesAt"
      from whereabouts w
      join keeping k on k.id = w.keeping_id
      left join practice pr on pr.id = k.practice_id
      left join driver dr on dr.id = k.driver_id
      left join centre ce on ce.id = w.centre_id
      left join enclosure e on e.id = w.enclosure_id
      left join room r on r.id = e.room_id
     where w.casualty_id = ${id}::int and w.until is null`
  if (row === undefined) throw new Failure('not-found')
  return row
}

export type HoldKept = {
  readonly id: number
  readonly centreId: number
  readonly centre: string
  readonly enclosureId: number
  readonly enclosure: string
  readonly expectedAt: Date | null
  readonly expiresAt: Date | null
}

/** Places kept for it. */
export async function listHolds(_grant: Grant<'casualty.read'>, id: number): Promise<HoldKept[]> {
  const rows = await db().claim.findMany({
    where: { casualtyId: id, kind: 'hold', state: 'live' },
    orderBy: { startsAt: 'asc' },
    include: { enclosure: { select: { name: true, centreId: true, centre: { select: { name: true } } } } },
  })
  return rows.map(({ enclosure, ...row }) => ({
    id: row.id,
    centreId: enclosure.centreId,
    centre: enclosure.centre.name,
    enclosureId: row.enclosureId,
    enclosure: enclosure.name,
    expectedAt: row.expectedAt,
    expiresAt: row.expiresAt,
  }))
}

export type BrokenFor = { readonly reference: string; readonly enclosure: string }

/** Promises that this animal's facts took away and that nobody has made good: no place kept since, not there yet. */
export async function listBrokenBy(_grant: Grant<'casualty.read'>, id: number): Promise<BrokenFor[]> {
  return db().$queryRaw<BrokenFor[]>`
    select c.reference, e.name as enclosure
      from claim b
      join keeping k on k.id = b.broken_by and k.casualty_id = ${id}::int
      join casualty c on c.id = b.casualty_id
      join enclosure e on e.id = b.enclosure_id
      join whereabouts w on w.casualty_id = b.casualty_id and w.until is null
     where b.kind = 'hold' and b.state = 'broken' and w.keeper not in ('centre', 'nobody')
       and not exists (select from claim h where h.casualty_id = b.casualty_id and h.kind = 'hold' and h.state = 'live')
     order by b.id`
}

export type CheckRow = {
  readonly id: number
  readonly stageNo: number
  readonly slug: string
  readonly what: string
  readonly dueOn: number | null
  readonly intervalDays: number | null
  readonly requiredFor: 'next stage' | 'release' | null
  readonly who: string
  readonly mark: string
  readonly doneAt: Date | null
  readonly doneWithin: Span | null
  readonly doneBy: string | null
  /** When somebody wrote down that it was done. */
  readonly enteredAt: Date | null
  readonly passed: boolean | null
  readonly result: string | null
  readonly found: Found | null
  readonly signedBy: string | null
  readonly isCalledOff: boolean
}

/** Every check of its plan, done or not, the earliest due first and undated ones last. */
export async function listChecks(_grant: Grant<'casualty.read'>, id: number): Promise<CheckRow[]> {
  const rows = await db().checkDue.findMany({
    where: { casualtyId: id },
    orderBy: [{ dueOn: { sort: 'asc', nulls: 'last' } }, { stageNo: 'asc' }, { id: 'asc' }],
    include: { doneByOf: { select: { name: true } }, entry: { select: { enteredAt: true } } },
  })
  return rows.map(row => ({
    id: row.id,
    stageNo: row.stageNo,
    slug: row.checkSlug,
    what: row.what,
    dueOn: row.dueOn === null ? null : Math.round(row.dueOn.getTime() / MS_PER_DAY),
    intervalDays: row.intervalDays,
    requiredFor: row.requiredFor === 'release' || row.requiredFor === 'next stage' ? row.requiredFor : null,
    who: row.who,
    mark: row.mark,
    doneAt: row.doneAt,
    doneWithin: spanOfRow(row.doneEarliest, row.doneLatest),
    enteredAt: row.doneAt === null ? null : (row.entry?.enteredAt ?? null),
    doneBy: row.doneByOf?.name ?? null,
    passed: row.passed,
    result: row.result,
    found: FOUND.find(one => one === row.found) ?? null,
    signedBy: row.signedBy,
    isCalledOff: row.calledOffAt !== null,
  }))
}

/** Practices and drivers that can have an animal. */
export async function listOtherKeepers(_grant: Grant<'casualty.read'>): Promise<{
  readonly practices: readonly { readonly id: number; readonly name: string }[]
  readonly drivers: readonly { readonly id: number; readonly name: string }[]
}> {
  const asked = {
    where: { isActive: true },
    orderBy: { name: 'asc' },
    select: { id: true, name: true },
  } as const
  const [practices, drivers] = await Promise.all([db().practice.findMany(asked), db().driver.findMany(asked)])
  return { practices, drivers }
}
