/**
 * One transaction that changes what is known: an entry, its audit row, and the revision taken last.
 * Promise: either all of it is there or nothing; revisions follow the order of commits. Audit rows name columns, never
 * values.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'
import { refusedBy } from './constraint.ts'

export type EntryTx = { readonly tx: Prisma.TransactionClient; readonly entryId: number }

/** What is done, for the audit, and when. */
export type EntryAbout<T = unknown> = {
  readonly now: Date
  readonly action: string
  readonly subject: string
  /** A new row has its number only once it was written. */
  readonly subjectId: number | string | ((done: T) => number | string)
  readonly columns?: readonly string[]
  readonly reason?: string
  /** Given by whoever may send the same thing twice: the second time is refused ('entry_device_key_once'). */
  readonly deviceKey?: string
  /** The casualty that is held until the entry ends, so that two people's words about it follow each other. */
  readonly holds?: number | undefined
}

const TRANSACTION_MS_MAX = 20_000

/** Runs the work inside an entry; what a constraint refuses comes out as a Failure. */
export async function inEntry<T>(
  grant: Grant,
  about: EntryAbout<T>,
  work: (entry: EntryTx) => Promise<T>,
): Promise<T> {
  return inTransaction(async tx => {
    const entryId = await openEntry(tx, grant, about)
    const done = await work({ tx, entryId })
    const audit = auditOf(grant, about, done)
    await tx.$queryRaw`with told as (${audit} returning id) select close_entry(${entryId}::int) from told`
    return done
  })
}

/** The statement of one fact, once the number of its entry is there. */
export type FactSql = (entryId: Prisma.Sql) => Prisma.Sql

/** Writes a fact inside an entry. */
export async function writeFact({ tx, entryId }: EntryTx, fact: FactSql): Promise<void> {
  await tx.$executeRaw(fact(Prisma.sql`${entryId}::int`))
}

/** A fact that stands by itself, with its entry, in one statement: there are hundreds a day. */
export async function writeEntry(
  grant: Grant,
  about: Omit<EntryAbout, 'holds'>,
  fact: FactSql,
): Promise<void> {
  // The revision is taken from what the others return, and so after them.
  await refusing(
    db().$queryRaw`
      with opened as (${openedOf(grant, about)}),
           written as (${fact(Prisma.sql`(select id from opened)`)} returning 1),
           told as (${auditOf(grant, about, undefined)} returning id)
      select close_entry(opened.id) from opened, told, written`,
  )
}

/** One transaction with its audit row for what is no fact about an animal or a place: the revision stays. */
export async function inAudited<T>(
  grant: Grant,
  about: EntryAbout<T>,
  work: (entry: Pick<EntryTx, 'tx'>) => Promise<T>,
): Promise<T> {
  return inTransaction(async tx => {
    const done = await work({ tx })
    await tx.$executeRaw(auditOf(grant, about, done))
    return done
  })
}

async function inTransaction<T>(work: (tx: Prisma.TransactionClient) => Promise<T>): Promise<T> {
  return refusing(db().$transaction(work, { timeout: TRANSACTION_MS_MAX, maxWait: TRANSACTION_MS_MAX }))
}

async function refusing<T>(work: Promise<T>): Promise<T> {
  try {
    return await work
  } catch (thrown) {
    throw refusedBy(thrown)
  }
}

async function openEntry<T>(
  tx: Prisma.TransactionClient,
  grant: Grant,
  about: EntryAbout<T>,
): Promise<number> {
  const { holds } = about
  const opened = openedOf(grant, about)
  // In one statement, of which there are thousands a day; what comes after it sees what the lock waited for.
  const [made] = await tx.$queryRaw<{ id: number }[]>(
    holds === undefined
      ? opened
      : Prisma.sql`
        with opened as (${opened}),
             held as (select id from casualty where id = ${holds}::int for no key update)
        select opened.id from opened left join held on true`,
  )
  return made?.id ?? 0
}

function openedOf({ actor }: Grant, { now, deviceKey }: Pick<EntryAbout, 'now' | 'deviceKey'>): Prisma.Sql {
  return Prisma.sql`
    insert into entry (entered_at, entered_by, device_key)
    values (${now}::timestamptz, ${actor.personId}::int, ${deviceKey ?? null}::text) returning id`
}

function auditOf<T>({ actor }: Grant, about: EntryAbout<T>, done: T): Prisma.Sql {
  const who = actor.kind === 'system' ? actor.reason : actor.name
  const subjectId = typeof about.subjectId === 'function' ? about.subjectId(done) : about.subjectId
  return Prisma.sql`
    insert into audit (at, person_id, actor_words, action, subject, subject_id, columns, reason)
    values (${about.now}::timestamptz, ${actor.personId}::int, ${who}, ${about.action}, ${about.subject},
            ${String(subjectId)}, ${[...(about.columns ?? [])]}::text[], ${about.reason ?? null}::text)`
}
