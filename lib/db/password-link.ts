/**
 * Whom a link for a password is for.
 * Promise: only people who are switched on; whether one has a password is told, never its hash.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

export type LinkPerson = {
  readonly id: number
  readonly name: string
  readonly email: string
  readonly hasPassword: boolean
}

/** Somebody who is switched on, by number or by e-mail. */
export async function findForLink(
  _grant: Grant<'people.change' | 'system.run'>,
  who: { readonly id: number } | { readonly email: string },
): Promise<LinkPerson | undefined> {
  const row = await db().person.findFirst({
    where: { ...who, isActive: true },
    select: { id: true, name: true, email: true, passwordHash: true },
  })
  if (row === null) return undefined
  const { passwordHash, ...person } = row
  return { ...person, hasPassword: passwordHash !== null }
}

/** Whether somebody asked for a link herself since an instant, and it still opens something. */
export async function hasFreshOwnLink(
  _grant: Grant<'system.run'>,
  personId: number,
  since: Date,
): Promise<boolean> {
  const found = await db().oneTimeLink.findFirst({
    where: { personId, madeBy: null, madeAt: { gt: since }, usedAt: null, revokedAt: null },
    select: { id: true },
  })
  return found !== null
}

/** A new password for somebody who is still switched on; every session ends. Gives the count of ends. */
export async function writePasswordByLink(
  _grant: Grant<'system.run'>,
  { tx }: EntryTx,
  id: number,
  passwordHash: string,
): Promise<number> {
  const { count } = await tx.person.updateMany({
    where: { id, isActive: true },
    data: { passwordHash, sessionEpoch: { increment: 1 }, version: { increment: 1 } },
  })
  if (count === 0) throw new Failure('rule', { rule: 'link-taken-back' })
  const { sessionEpoch } = await tx.person.findUniqueOrThrow({
    where: { id },
    select: { sessionEpoch: true },
  })
  return sessionEpoch
}
