/**
 * A person's own account: what she may do where, her password, the end of her sessions.
 * Promise: every function reaches the row of the actor and no other. Writes run inside an entry.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { heldRole, type Person } from '#lib/domain/person.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'

type Held = Person['roles'][number] & { readonly place: string | null }

export type Account = {
  readonly name: string
  readonly email: string
  readonly roles: readonly Held[]
}

type OwnGrant = Grant<'account.own'>

/** Her name, e-mail and roles with their places. */
export async function getAccountRow(grant: OwnGrant): Promise<Account> {
  const row = await db().person.findUnique({
    where: { id: ownId(grant) },
    select: {
      name: true,
      email: true,
      personRoleByPersonId: {
        select: {
          role: true,
          centreId: true,
          practiceId: true,
          centre: { select: { name: true } },
          practice: { select: { name: true } },
        },
        orderBy: { id: 'asc' },
      },
    },
  })
  if (row === null) throw new Failure('not-found')
  const { personRoleByPersonId, ...own } = row
  return {
    ...own,
    roles: personRoleByPersonId.map(({ centre, practice, ...held }) => ({
      ...heldRole.parse(held),
      place: centre?.name ?? practice?.name ?? null,
    })),
  }
}

/** What her password is checked against. */
export async function getOwnCredentials(
  grant: OwnGrant,
): Promise<{ readonly email: string; readonly passwordHash: string | null }> {
  const row = await db().person.findUnique({
    where: { id: ownId(grant) },
    select: { email: true, passwordHash: true },
  })
  if (row === null) throw new Failure('not-found')
  return row
}

/** A new password; every session ends. Gives the count of ends, for the session that goes on. */
export async function writeOwnPassword(
  grant: OwnGrant,
  { tx }: Pick<EntryTx, 'tx'>,
  passwordHash: string,
): Promise<number> {
  const { sessionEpoch } = await tx.person.update({
    where: { id: ownId(grant) },
    data: { passwordHash, sessionEpoch: { increment: 1 }, version: { increment: 1 } },
    select: { sessionEpoch: true },
  })
  return sessionEpoch
}

/** Ends every session she has. */
export async function writeOwnSessionsEnd(grant: OwnGrant, { tx }: Pick<EntryTx, 'tx'>): Promise<void> {
  await tx.person.update({
    where: { id: ownId(grant) },
    data: { sessionEpoch: { increment: 1 } },
  })
}

function ownId({ actor }: OwnGrant): number {
  if (actor.personId === null) throw new Failure('forbidden')
  return actor.personId
}
