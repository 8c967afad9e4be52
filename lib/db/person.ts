/**
 * People who sign in, as the records know them.
 * Promise: a password's hash leaves here only towards the check at sign-in; a switched-off person is nobody.
 */
import 'server-only'
import type { HeldRole, PersonActor, Role } from '#lib/authz/actor.ts'
import { ROLES } from '#lib/authz/actor.ts'
import type { Grant } from '#lib/authz/demand.ts'
import { invariant } from '#lib/kernel/invariant.ts'
import { db } from './client.ts'

export type Credentials = {
  readonly personId: number
  /** Nobody has one who was only invited. */
  readonly passwordHash: string | null
  readonly epoch: number
}

/** What sign-in compares, by e-mail in lower case. */
export async function findCredentials(
  _grant: Grant<'system.run'>,
  email: string,
): Promise<Credentials | undefined> {
  const person = await db().person.findFirst({
    where: { email, isActive: true },
    select: { id: true, passwordHash: true, sessionEpoch: true },
  })
  return person === null
    ? undefined
    : { personId: person.id, passwordHash: person.passwordHash, epoch: person.sessionEpoch }
}

/** The person behind a session, with the roles of this moment, unless her sessions were ended since. */
export async function findPersonActor(
  _grant: Grant<'system.run'>,
  personId: number,
  epoch: number,
): Promise<PersonActor | undefined> {
  const person = await db().person.findFirst({
    where: { id: personId, isActive: true, sessionEpoch: epoch },
    select: {
      id: true,
      name: true,
      personRoleByPersonId: {
        select: { role: true, centreId: true, practiceId: true },
        orderBy: { id: 'asc' },
      },
    },
  })
  if (person === null) return undefined
  return {
    kind: 'person',
    personId: person.id,
    name: person.name,
    roles: person.personRoleByPersonId.map(heldRole),
  }
}

/** Names by number, of people who are gone too. */
export async function listNames(
  _grant: Grant<'call.read'>,
  ids: readonly number[],
): Promise<ReadonlyMap<number, string>> {
  const rows = await db().person.findMany({
    where: { id: { in: [...ids] } },
    select: { id: true, name: true },
  })
  return new Map(rows.map(({ id, name }) => [id, name]))
}

/** Who may be on the line, by name. */
export async function listOnTheLine(
  _grant: Grant<'call.read'>,
): Promise<{ readonly id: number; readonly name: string }[]> {
  return db().person.findMany({
    where: { isActive: true, personRoleByPersonId: { some: { role: 'coordinator' } } },
    select: { id: true, name: true },
    orderBy: { name: 'asc' },
  })
}

function heldRole(row: { role: string; centreId: number | null; practiceId: number | null }): HeldRole {
  return {
    role: knownRole(row.role),
    ...(row.centreId !== null && { centreId: row.centreId }),
    ...(row.practiceId !== null && { practiceId: row.practiceId }),
  }
}

function knownRole(text: string): Role {
  const role = ROLES.find(known => known === text)
  invariant(role !== undefined, 'person_role_known lets through a role that the policy does not know')
  return role
}
