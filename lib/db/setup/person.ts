/**
 * People as an administrator sees them: name, e-mail, roles; never a password's hash.
 * Promise: a new password ends every session the person has; switching her off does too. Roles are replaced as a
 * whole with the version they were read at. Writes run inside an entry.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { heldRole, type Person } from '#lib/domain/person.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type PersonDetail = Omit<Person, 'roles'> & {
  readonly id: number
  readonly isActive: boolean
  readonly version: number
  readonly roles: readonly (Person['roles'][number] & { readonly place: string | null })[]
}
type Version = { readonly id: number; readonly version: number }

const selected = {
  id: true,
  name: true,
  email: true,
  phone: true,
  isActive: true,
  version: true,
  personRoleByPersonId: {
    select: {
      role: true,
      centreId: true,
      practiceId: true,
      centre: { select: { name: true } },
      practice: { select: { name: true } },
    },
    orderBy: { id: 'asc' as const },
  },
} as const

export async function listPeopleRows(_grant: Grant<'people.read'>): Promise<PersonDetail[]> {
  const rows = await db().person.findMany({
    select: selected,
    orderBy: [{ isActive: 'desc' }, { name: 'asc' }],
  })
  return rows.map(personOf)
}

export async function getPersonDetail(_grant: Grant<'people.read'>, id: number): Promise<PersonDetail> {
  const row = await db().person.findUnique({ where: { id }, select: selected })
  if (row === null) throw new Failure('not-found')
  return personOf(row)
}

export async function insertPerson(
  { tx }: EntryTx,
  person: Person,
  passwordHash: string | null,
): Promise<number> {
  const { roles, ...columns } = person
  const { id } = await tx.person.create({ data: { ...columns, passwordHash }, select: { id: true } })
  await tx.personRole.createMany({ data: roles.map(role => ({ ...role, personId: id })) })
  return id
}

export async function updatePerson({ tx }: EntryTx, at: Version, person: Person): Promise<void> {
  const { roles, ...columns } = person
  await write({ tx }, at, columns)
  await tx.personRole.deleteMany({ where: { personId: at.id } })
  await tx.personRole.createMany({ data: roles.map(role => ({ ...role, personId: at.id })) })
}

export async function updatePassword(
  entry: Pick<EntryTx, 'tx'>,
  at: Version,
  passwordHash: string,
): Promise<void> {
  await write(entry, at, { passwordHash, sessionEpoch: { increment: 1 } })
}

export async function updatePersonSwitch(
  entry: Pick<EntryTx, 'tx'>,
  at: Version,
  isActive: boolean,
): Promise<void> {
  await write(entry, at, { isActive, ...(!isActive && { sessionEpoch: { increment: 1 } }) })
}

/**
 * Locks everybody until the transaction ends, in one order: whoever takes duties over can not be switched off in the same
 * moment, nor the last two administrators each other. A stronger lock would wait for the entries of those who wait here.
 */
export async function lockPeople({ tx }: Pick<EntryTx, 'tx'>): Promise<void> {
  await tx.$queryRaw`select id from person order by id for no key update`
}

/** How many people who are switched on are administrators; whoever decides by it has locked everybody before. */
export async function countAdministrators({ tx }: EntryTx): Promise<number> {
  return tx.person.count({
    where: { isActive: true, personRoleByPersonId: { some: { role: 'administrator' } } },
  })
}

type Change = Partial<Omit<Person, 'roles'>> & {
  readonly passwordHash?: string
  readonly isActive?: boolean
  readonly sessionEpoch?: { readonly increment: number }
}

async function write({ tx }: Pick<EntryTx, 'tx'>, { id, version }: Version, change: Change): Promise<void> {
  const written = await tx.person.updateMany({
    where: { id, version },
    data: { ...change, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.person.findUnique({ where: { id }, select: { version: true } }))
}

type Row = Omit<PersonDetail, 'roles'> & {
  readonly personRoleByPersonId: readonly {
    readonly role: string
    readonly centreId: number | null
    readonly practiceId: number | null
    readonly centre: { readonly name: string } | null
    readonly practice: { readonly name: string } | null
  }[]
}

function personOf({ personRoleByPersonId, ...row }: Row): PersonDetail {
  return {
    ...row,
    roles: personRoleByPersonId.map(({ centre, practice, ...held }) => ({
      ...heldRole.parse(held),
      place: centre?.name ?? practice?.name ?? null,
    })),
  }
}
