/**
 * Mail on its way. Promise: it is queued in the transaction that makes it due, once for each key; each process that
 * delivers takes others than the next, and a try that was never heard of again is made anew; what it said is forgotten
 * when it has left or was given up.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'

export type Mail = {
  /** Names what is told to whom: the same key is queued once. */
  readonly key: string
  readonly to: string
  readonly subject: string
  readonly body: string
  readonly at: Date
}

/** Queues a mail; false when its key was queued before. */
export async function queueMail(
  tx: Prisma.TransactionClient,
  { key, to, subject, body, at }: Mail,
): Promise<boolean> {
  const { count } = await tx.outbox.createMany({
    data: [{ key, toAddress: to, subject, body, queuedAt: at, dueAt: at }],
    skipDuplicates: true,
  })
  return count === 1
}

export type DueMail = {
  readonly id: number
  readonly to: string
  readonly subject: string
  readonly body: string
  readonly tries: number
}

/** Takes what is due, a few at a time; each is due again at `nextAt` of its tries, unless it is marked before. */
export async function claimDueMail(
  _grant: Grant<'system.run'>,
  now: Date,
  limit: number,
  nextAt: (tries: number) => Date,
): Promise<DueMail[]> {
  return db().$transaction(async tx => {
    const due = await tx.$queryRaw<DueMail[]>`
      select id, to_address as "to", subject, body, tries + 1 as tries from outbox
       where sent_at is null and given_up_at is null and due_at <= ${now}::timestamptz
       order by due_at, id for update skip locked limit ${limit}`
    for (const { id, tries } of due) {
      await tx.outbox.update({ where: { id }, data: { tries, dueAt: nextAt(tries) } })
    }
    return due
  })
}

const EMPTIED = { toAddress: null, subject: null, body: null } as const

/** It left. */
export async function markMailSent(_grant: Grant<'system.run'>, id: number, at: Date): Promise<void> {
  await db().outbox.updateMany({
    where: { id, sentAt: null, givenUpAt: null },
    data: { ...EMPTIED, sentAt: at, lastFault: null },
  })
}

/** It did not leave: it stays due, or is given up. */
export async function markMailFault(
  _grant: Grant<'system.run'>,
  id: number,
  fault: string,
  givenUpAt: Date | undefined,
): Promise<void> {
  await db().outbox.updateMany({
    where: { id, sentAt: null, givenUpAt: null },
    data: { lastFault: fault, ...(givenUpAt !== undefined && { ...EMPTIED, givenUpAt }) },
  })
}
