/**
 * What was tapped on the round, and what waits because somebody else had recorded otherwise meanwhile.
 * Promise: one row an entry; taking back adds a row and keeps the first. Written inside an entry (entry.ts). Instants
 * are UTC.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Found } from '#lib/domain/check-result.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import { type RoundSaid, roundSaid } from '#lib/domain/round-entry.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

export type RoundState = 'stands' | 'taken-back' | 'waits' | 'set-aside' | 'put-right'

export type RoundRow = {
  readonly centreId: number
  readonly casualtyId: number | undefined
  readonly said: RoundSaid
  readonly happenedAt: Date
  readonly state: 'stands' | 'waits'
}

/** Writes what was tapped and returns its number. An undo marks what it takes back; twice is refused. */
export async function writeRoundEntry({ tx, entryId }: EntryTx, row: RoundRow): Promise<number> {
  const { said, casualtyId = null, centreId, happenedAt, state } = row
  const undoes = said.kind === 'undo' ? said.entryId : null
  const { id } = await tx.roundEntry.create({
    data: { entryId, centreId, casualtyId, kind: said.kind, happenedAt, said, state, undoes },
    select: { id: true },
  })
  if (undoes !== null) await tx.roundEntry.update({ where: { id: undoes }, data: { state: 'taken-back' } })
  return id
}

export type RoundEntry = {
  readonly id: number
  readonly entryId: number
  readonly centreId: number
  readonly casualtyId: number | null
  readonly reference: string | null
  readonly said: RoundSaid
  readonly state: RoundState
  readonly happenedAt: Date
  readonly enteredAt: Date
  readonly byId: number | null
  readonly by: string | null
  /** What the numbers of what was said stand for. */
  readonly names: SaidNames
}

export type SaidNames = {
  readonly enclosure: string | null
  readonly check: string | null
  readonly stage: CareStage | null
  /** Of an ending taken back: places that are kept again, and those that others have. */
  readonly keptAgain: readonly string[]
  readonly lost: readonly string[]
}

const entryParts = {
  entry: { select: { enteredAt: true, enteredBy: true, enteredByOf: { select: { name: true } } } },
  casualty: { select: { reference: true } },
} as const

type Row = NonNullable<Awaited<ReturnType<typeof findRow>>>

function findRow(where: { readonly id: number } | { readonly deviceKey: string }) {
  return db().roundEntry.findFirst({
    where: 'id' in where ? where : { entry: { deviceKey: where.deviceKey } },
    include: entryParts,
  })
}

async function entryOf({ entry, casualty, said: kept, state, ...row }: Row): Promise<RoundEntry> {
  const said = roundSaid.parse(kept)
  return {
    id: row.id,
    entryId: row.entryId,
    centreId: row.centreId,
    casualtyId: row.casualtyId,
    happenedAt: row.happenedAt,
    reference: casualty?.reference ?? null,
    said,
    names: await namesOf(said, row.casualtyId),
    state: STATES.find(one => one === state) ?? 'stands',
    enteredAt: entry.enteredAt,
    byId: entry.enteredBy,
    by: entry.enteredByOf?.name ?? null,
  }
}

async function namesOf(said: RoundSaid, casualtyId: number | null): Promise<SaidNames> {
  const enclosureId = said.kind === 'moved' ? said.enclosureId : null
  const checkId = said.kind === 'check' ? said.checkId : null
  const stageNo = said.kind === 'stage' ? said.stageNo : null
  const { keptAgain = [], lost = [] } = said.kind === 'undo' ? said : {}
  const [row] = await db().$queryRaw<SaidNames[]>`
    select (select name from enclosure where id = ${enclosureId}::int) as enclosure,
           (select check_slug from check_due where id = ${checkId}::int) as check,
           (select s.stage from casualty_stage s join casualty_plan p on p.id = s.casualty_plan_id
             where p.casualty_id = ${casualtyId}::int and s.stage_no = ${stageNo}::int
             order by p.version_no desc limit 1) as stage,
           array(select name from enclosure where id = any (${keptAgain}::int[]) order by name) as "keptAgain",
           array(select name from enclosure where id = any (${lost}::int[]) order by name) as lost`
  return row ?? { enclosure: null, check: null, stage: null, keptAgain: [], lost: [] }
}

const STATES: readonly RoundState[] = ['stands', 'taken-back', 'waits', 'set-aside', 'put-right']

type Reads = Grant<'casualty.record' | 'round.read' | 'casualty.read' | 'system.run'>

/** What was tapped under a key; undefined before it arrived. */
export async function findRoundEntry(_grant: Reads, deviceKey: string): Promise<RoundEntry | undefined> {
  const row = await findRow({ deviceKey })
  return row === null ? undefined : entryOf(row)
}

/** Failure 'not-found' without it. */
export async function getRoundEntry(_grant: Reads, id: number): Promise<RoundEntry> {
  const row = await findRow({ id })
  if (row === null) throw new Failure('not-found')
  return entryOf(row)
}

/** What waits for a person at a centre, the oldest first. */
export async function listRoundWaiting(_grant: Reads, centreId: number): Promise<RoundEntry[]> {
  const rows = await db().roundEntry.findMany({
    where: { centreId, state: 'waits' },
    include: entryParts,
    orderBy: { id: 'asc' },
  })
  return Promise.all(rows.map(entryOf))
}

/** How an animal stands now, beside what was tapped: the newest word of somebody else. */
export type Meanwhile = {
  readonly enclosure: string | null
  readonly centre: string | null
  readonly outcome: Outcome | null
  readonly stage: CareStage | null
  readonly passed: boolean | null
  readonly found: Found | null
  readonly by: string | null
  readonly at: Date | null
}

/** What stands now in the way of a tap that waits. */
export async function getMeanwhile(_grant: Reads, { said, casualtyId }: RoundEntry): Promise<Meanwhile> {
  const checkId = said.kind === 'check' ? said.checkId : null
  const isStage = said.kind === 'stage'
  const [row] = await db().$queryRaw<Meanwhile[]>`
    select n.enclosure, n.centre, n.outcome, n.stage, n.passed, n.found, p.name as by, n.at
      from (
        select e.name as enclosure, ce.name as centre, k.outcome, null::text as stage, null::boolean as passed, null::text as found,
               en.entered_by, w.since as at
          from whereabouts w join keeping k on k.id = w.keeping_id join entry en on en.id = k.entry_id
          left join enclosure e on e.id = w.enclosure_id left join centre ce on ce.id = w.centre_id
         where w.casualty_id = ${casualtyId}::int and w.until is null and ${checkId}::int is null and not ${isStage}::boolean
        union all
        select null, null, null, null, d.passed, d.found, d.done_by, d.done_at from check_due d where d.id = ${checkId}::int
        union all
        (select null, null, null, (select t.stage from casualty_stage t join casualty_plan c on c.id = t.casualty_plan_id
                  where c.casualty_id = f.casualty_id and t.stage_no = f.stage_no order by c.version_no desc limit 1),
                null, null, en.entered_by, f.at
           from stage_fact f join entry en on en.id = f.entry_id
          where f.casualty_id = ${casualtyId}::int and f.kind = 'began' and not f.is_void and ${isStage}::boolean
            and not exists (select from stage_fact z where z.supersedes = f.id)
          order by f.stage_no desc limit 1)) n
      left join person p on p.id = n.entered_by`
  return (
    row ?? {
      enclosure: null,
      centre: null,
      outcome: null,
      stage: null,
      passed: null,
      found: null,
      by: null,
      at: null,
    }
  )
}

/** Facts of keeping and weights show by themselves that they were taken back. */
const GONE = ['check', 'stage']

/** What was said of an animal on the round and stands nowhere else: taken back, set aside, or still waiting. */
export async function listNotStanding(_grant: Reads, casualtyId: number): Promise<RoundEntry[]> {
  const rows = await db().roundEntry.findMany({
    where: {
      casualtyId,
      OR: [{ state: { in: ['waits', 'set-aside'] } }, { state: 'taken-back', kind: { in: GONE } }],
    },
    include: entryParts,
    orderBy: { id: 'asc' },
  })
  return Promise.all(rows.map(entryOf))
}

/** A person looked at both versions. Failure 'conflict' when somebody did so before. */
export async function settleRoundEntry(
  { tx }: EntryTx,
  id: number,
  settled: { readonly state: 'set-aside' | 'put-right'; readonly by: number | null; readonly at: Date },
): Promise<void> {
  const { count } = await tx.roundEntry.updateMany({
    where: { id, state: 'waits' },
    data: { state: settled.state, settledBy: settled.by, settledAt: settled.at },
  })
  if (count === 0) throw new Failure('conflict', { rule: 'round-settled-already' })
}

export type SeenNow = { readonly keepingId: number | null; readonly stageNo: number | null }

/** Where an animal is by its newest fact, and the stage that began last. Read under the casualty's lock. */
export async function readSeen({ tx }: EntryTx, casualtyId: number): Promise<SeenNow> {
  const [row] = await tx.$queryRaw<SeenNow[]>`
    select (select keeping_id from whereabouts where casualty_id = ${casualtyId}::int and until is null) as "keepingId",
           (select f.stage_no from stage_fact f
             where f.casualty_id = ${casualtyId}::int and f.kind = 'began' and not f.is_void
               and not exists (select from stage_fact z where z.supersedes = f.id)
             order by f.stage_no desc limit 1) as "stageNo"`
  return row ?? { keepingId: null, stageNo: null }
}

/** The fact of keeping that an entry recorded. */
export async function findKeepingOf(_grant: Reads, entryId: number): Promise<number | undefined> {
  const row = await db().keeping.findFirst({ where: { entryId }, select: { id: true } })
  return row?.id
}

/** The fact that says where an animal is now. */
export async function findNewestKeeping(_grant: Reads, casualtyId: number): Promise<number | undefined> {
  const row = await db().whereabouts.findFirst({
    where: { casualtyId, until: null },
    select: { keepingId: true },
  })
  return row?.keepingId
}

/** The entry by which a check is done. */
export async function findEntryOfCheck(_grant: Reads, checkId: number): Promise<number | undefined> {
  const row = await db().checkDue.findFirst({
    where: { id: checkId, doneAt: { not: null } },
    select: { entryId: true },
  })
  return row?.entryId ?? undefined
}

export type RoundLine = {
  readonly casualtyId: number
  readonly keepingId: number
  readonly isSuspect: boolean
  readonly grams: number | null
  readonly weighedAt: Date | null
  readonly checks: readonly {
    readonly id: number
    readonly slug: string
    readonly what: string
    readonly dueOn: number | null
  }[]
}

const CHECKS_SHOWN = 3

/** What a line of the round needs beside the network: the fact it shows, the last weight, the checks due first. */
export async function listRoundLines(
  _grant: Grant<'round.read'>,
  centreId: number,
): Promise<ReadonlyMap<number, RoundLine>> {
  const rows = await db().$queryRaw<RoundLine[]>`
    select w.casualty_id as "casualtyId", w.keeping_id as "keepingId",
           (select is_disease_suspect from casualty where id = w.casualty_id) as "isSuspect", g.grams, g.at as "weighedAt",
           coalesce((select jsonb_agg(jsonb_build_object('id', d.id, 'slug', d.check_slug, 'what', d.what,
                       'dueOn', d.due_on - date '1970-01-01') order by d.due_on, d.id)
              from (select * from check_due d where d.casualty_id = w.casualty_id and d.done_at is null
                      and d.called_off_at is null order by d.due_on, d.id
                     limit ${CHECKS_SHOWN}::int) d), '[]') as checks
      from whereabouts w
      left join lateral (select grams, at from weight x where x.casualty_id = w.casualty_id and not x.is_void and x.supersedes is null
                          and not exists (select from weight v where v.supersedes = x.id and v.is_void)
                        order by x.at desc, x.id desc limit 1) g on true
     where w.until is null and w.keeper = 'centre' and w.centre_id = ${centreId}::int`
  return new Map(rows.map(row => [row.casualtyId, row]))
}
