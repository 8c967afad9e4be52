/**
 * Initials and the hashes of short codes.
 * Promise: found for people who are here only; each writes her own row. Writes run inside an entry.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

export type KnownCode = { readonly personId: number; readonly epoch: number; readonly codeHash: string }

/** Whose initials these are. */
export async function findByInitials(
  _grant: Grant<'system.run'>,
  initials: string,
): Promise<KnownCode | undefined> {
  const row = await db().person.findFirst({
    where: { initials, isActive: true },
    select: { id: true, sessionEpoch: true, codeHash: true },
  })
  if (row === null || row.codeHash === null) return undefined
  return { personId: row.id, epoch: row.sessionEpoch, codeHash: row.codeHash }
}

export async function getOwnInitials(grant: Grant<'account.own'>): Promise<string | null> {
  const row = await db().person.findUnique({ where: { id: ownId(grant) }, select: { initials: true } })
  return row?.initials ?? null
}

export async function writeOwnCode(
  grant: Grant<'account.own'>,
  { tx }: EntryTx,
  own: { readonly initials: string; readonly codeHash: string },
): Promise<void> {
  await tx.person.update({ where: { id: ownId(grant) }, data: own })
}

function ownId({ actor }: Grant<'account.own'>): number {
  if (actor.personId === null) throw new Failure('forbidden')
  return actor.personId
}
