/**
 * One transaction that changes what is known: an entry, its audit row, and the revision taken last.
 * Promise: either all of it is there or nothing; revisions follow the order of commits. Audit rows name columns, never
 * values.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Prisma } from '#prisma/generated/client.ts'
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
}

const TRANSACTION_MS_MAX = 20_000

/** Runs the work inside an entry; what a constraint refuses comes out as a Failure. */
export async function inEntry<T>(
  grant: Grant,
  about: EntryAbout<T>,
  work: (entry: EntryTx) => Promise<T>,
): Promise<T> {
  return inTransaction(async tx => {
    const { id: entryId } = await tx.entry.create({
      data: {
        enteredAt: about.now,
        enteredBy: grant.actor.personId,
        ...(about.deviceKey !== undefined && { deviceKey: about.deviceKey }),
      },
      select: { id: true },
    })
    const done = await work({ tx, entryId })
    await writeAudit(tx, grant, about, done)
    await tx.$queryRaw`select close_entry(${entryId}::int)`
    return done
  })
}

/** One transaction with its audit row for what is no fact about an animal or a place: the revision stays. */
export async function inAudited<T>(
  grant: Grant,
  about: EntryAbout<T>,
  work: (entry: Pick<EntryTx, 'tx'>) => Promise<T>,
): Promise<T> {
  return inTransaction(async tx => {
    const done = await work({ tx })
    await writeAudit(tx, grant, about, done)
    return done
  })
}

async function inTransaction<T>(work: (tx: Prisma.TransactionClient) => Promise<T>): Promise<T> {
  try {
    return await db().$transaction(work, { timeout: TRANSACTION_MS_MAX, maxWait: TRANSACTION_MS_MAX })
  } catch (thrown) {
    throw refusedBy(thrown)
  }
}

async function writeAudit<T>(
  tx: Prisma.TransactionClient,
  { actor }: Grant,
  about: EntryAbout<T>,
  done: T,
): Promise<void> {
  await tx.audit.create({
    data: {
      at: about.now,
      personId: actor.personId,
      actorWords: actor.kind === 'system' ? actor.reason : actor.name,
      action: about.action,
      subject: about.subject,
      subjectId: String(typeof about.subjectId === 'function' ? about.subjectId(done) : about.subjectId),
      columns: [...(about.columns ?? [])],
      reason: about.reason ?? null,
    },
  })
}
