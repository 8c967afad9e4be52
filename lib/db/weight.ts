/**
 * Weights: what an animal weighed, and what was said of it when somebody asked.
 * Promise: nothing is overwritten; one taken back stays readable. Writes run inside an entry (entry.ts). Grams.
 */
import 'server-only'
import type { Occurred } from '#lib/domain/precision.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { Prisma } from '#prisma/generated/client.ts'
import type { EntryTx, FactSql } from './entry.ts'

/** A weight, in grams. */
export function weighed({
  casualtyId,
  grams,
  at,
  earliest,
  latest,
}: { readonly casualtyId: number; readonly grams: number } & Occurred): FactSql {
  return entryId => Prisma.sql`
    insert into weight (entry_id, casualty_id, at, at_earliest, at_latest, grams)
    values (${entryId}, ${casualtyId}::int, ${at}::timestamptz, ${earliest ?? null}::timestamptz,
            ${latest ?? null}::timestamptz, ${grams}::double precision)`
}

/** What somebody says of a weight when asked: it is right, or it never was. The weight itself stays readable. */
export async function answerWeight(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  weightId: number,
  said: { readonly isSure: boolean },
): Promise<void> {
  const found = await tx.weight.findFirst({ where: { id: weightId, casualtyId, supersedes: null } })
  if (found === null) throw new Failure('not-found')
  const { at, grams } = found
  await tx.weight.create({
    data: { entryId, casualtyId, at, grams, supersedes: weightId, isSure: said.isSure, isVoid: !said.isSure },
  })
}

/** Takes back the weights of an entry that stand. */
export async function voidWeights({ tx, entryId }: EntryTx, ofEntryId: number): Promise<void> {
  const weights = await tx.weight.findMany({
    where: { entryId: ofEntryId, isVoid: false, supersedes: null, weightBySupersedes: { is: null } },
    select: { id: true, casualtyId: true, at: true, grams: true },
  })
  await tx.weight.createMany({
    data: weights.map(({ id, ...weight }) => ({ ...weight, entryId, isVoid: true, supersedes: id })),
  })
}
