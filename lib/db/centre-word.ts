/**
 * What centres say of themselves for a while.
 * Promise: of one kind one word of a centre stands at a time; a new one ends the one before it. Writes run inside an entry.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type CentreWord, centreWord, type WordKind } from '#lib/domain/centre-word.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

/** What a centre says at an instant. */
export async function listWords(
  _grant: Grant<'round.read'>,
  centreId: number,
  at: Date,
): Promise<CentreWord[]> {
  const rows = await db().centreWord.findMany({
    where: { centreId, liftedAt: null, until: { gt: at } },
    select: { centreId: true, kind: true, rounds: true, until: true },
    orderBy: { id: 'asc' },
  })
  return centreWord.array().parse(rows)
}

/** Ends the word of a kind that stands, and says another. */
export async function writeWord({ tx, entryId }: EntryTx, word: CentreWord, at: Date): Promise<void> {
  await endWord({ tx, entryId }, word.centreId, word.kind, at)
  await tx.centreWord.create({ data: { ...word, entryId, saidAt: at } })
}

/** Takes back what a centre said; nothing where it says nothing. */
export async function endWord({ tx }: EntryTx, centreId: number, kind: WordKind, at: Date): Promise<void> {
  await tx.centreWord.updateMany({
    where: { centreId, kind, liftedAt: null, until: { gt: at } },
    data: { liftedAt: at },
  })
}
