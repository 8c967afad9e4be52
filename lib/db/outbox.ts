/**
 * Mail on its way. Promise: it is queued in the transaction that makes it due, once for each key; what it said is
 * forgotten when it has left.
 */
import 'server-only'
import type { Prisma } from '#prisma/generated/client.ts'

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
