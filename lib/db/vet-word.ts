/**
 * What vets said of how much longer an animal needs in its stage.
 * Promise: append-only; a word that was taken back stays readable. Writes run inside an entry (entry.ts), after the
 * casualty's lock.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { Occurred, Span } from '#lib/domain/precision.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import { type Entered, entered, enteredOf, occurredRow, spanOfRow } from './entered.ts'
import type { EntryTx } from './entry.ts'

/** A word about one stage of an animal. Returns its number. */
export async function createVetWord(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  {
    stageNo,
    inDays,
    saidBy,
    ...when
  }: { readonly stageNo: number; readonly inDays: number; readonly saidBy: string } & Occurred,
): Promise<number> {
  const { id } = await tx.vetWord.create({
    data: { stageNo, inDays, saidBy, ...occurredRow(when), entryId, casualtyId },
    select: { id: true },
  })
  return id
}

/** Takes a word back. */
export async function voidVetWord(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  wordId: number,
): Promise<void> {
  const found = await tx.vetWord.findFirst({ where: { id: wordId, casualtyId, isVoid: false } })
  if (found === null) throw new Failure('not-found')
  const { stageNo, at, inDays, saidBy } = found
  await tx.vetWord.create({
    data: { entryId, casualtyId, stageNo, at, inDays, saidBy, isVoid: true, supersedes: wordId },
  })
}

export type VetWordRow = {
  readonly id: number
  readonly stageNo: number
  readonly at: Date
  readonly within: Span | null
  readonly inDays: number
  readonly saidBy: string
  readonly isTakenBack: boolean
  /** Nobody gave its stage another length since it was said. */
  readonly counts: boolean
  readonly entered: Entered
}

/** Every word, the first said first; those taken back among them. */
export async function listVetWords(
  _grant: Grant<'casualty.read'>,
  casualtyId: number,
): Promise<VetWordRow[]> {
  const [rows, standing] = await Promise.all([
    db().vetWord.findMany({
      where: { casualtyId, isVoid: false },
      orderBy: [{ at: 'asc' }, { id: 'asc' }],
      include: { vetWordBySupersedes: { select: { id: true } }, entry: entered },
    }),
    db().$queryRaw<{ id: number; counts: boolean }[]>`
      select id, counts from vet_word_now where casualty_id = ${casualtyId}::int`,
  ])
  return rows.map(row => ({
    id: row.id,
    stageNo: row.stageNo,
    at: row.at,
    within: spanOfRow(row.atEarliest, row.atLatest),
    inDays: row.inDays,
    saidBy: row.saidBy,
    isTakenBack: row.vetWordBySupersedes !== null,
    counts: standing.some(one => one.id === row.id && one.counts),
    entered: enteredOf(row.entry),
  }))
}
