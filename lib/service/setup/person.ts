/**
 * Setting up people: roles, a first password, a new password, switching off.
 * Promise: a new password and switching off end every session the person has; somebody who can set people up is
 * always left. Passwords are hashed before anything is written and never read back.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { listCentreChoices, listPracticeChoices, type Named } from '#lib/db/setup/choice.ts'
import {
  countAdministrators,
  getPersonDetail,
  insertPerson,
  listPeopleRows,
  type PersonDetail,
  updatePassword,
  updatePerson,
  updatePersonSwitch,
} from '#lib/db/setup/person.ts'
import { parse } from '#lib/domain/parse.ts'
import { firstPasswordForm, passwordForm, personForm } from '#lib/domain/person.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { hashPassword } from '../password.ts'

const COLUMNS = ['name', 'email', 'phone', 'roles']

export async function listPeople(actor: Actor): Promise<PersonDetail[]> {
  return listPeopleRows(demand(actor, 'people.read'))
}

export type PersonForm = {
  readonly person: PersonDetail | undefined
  readonly centres: readonly Named[]
  readonly practices: readonly Named[]
}

export async function getPersonForm(actor: Actor, id: number): Promise<PersonForm> {
  const grant = demand(actor, 'people.read')
  const [person, centres, practices] = await Promise.all([
    getPersonDetail(grant, id),
    listCentreChoices(grant),
    listPracticeChoices(grant),
  ])
  return { person, centres, practices }
}

export async function newPersonForm(actor: Actor): Promise<PersonForm> {
  const grant = demand(actor, 'people.change')
  const [centres, practices] = await Promise.all([listCentreChoices(grant), listPracticeChoices(grant)])
  return { person: undefined, centres, practices }
}

export async function addPerson(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'people.change')
  const { newPassword, ...person } = parse(personForm.extend(firstPasswordForm.shape), input)
  const passwordHash = newPassword === '' ? null : await hashPassword(newPassword)
  return inEntry(
    grant,
    { now, action: 'added', subject: 'person', subjectId: id => id, columns: [...COLUMNS, 'password_hash'] },
    entry => insertPerson(entry, person, passwordHash),
  )
}

export async function changePerson(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'people.change')
  const { version } = parse(versionForm, input)
  const person = parse(personForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'person', subjectId: id, columns: COLUMNS },
    async entry => {
      await updatePerson(entry, { id, version }, person)
      await refuseWithoutAdministrator(entry)
    },
  )
}

export async function changePassword(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'people.change')
  const { version } = parse(versionForm, input)
  const passwordHash = await hashPassword(parse(passwordForm, input).newPassword)
  await inEntry(
    grant,
    {
      now,
      action: 'password changed',
      subject: 'person',
      subjectId: id,
      columns: ['password_hash', 'session_epoch'],
    },
    entry => updatePassword(entry, { id, version }, passwordHash),
  )
}

export async function switchPerson(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'people.change')
  const { version, isActive } = parse(switchForm, input)
  await inEntry(
    grant,
    {
      now,
      action: isActive ? 'switched on' : 'switched off',
      subject: 'person',
      subjectId: id,
      columns: ['is_active', 'session_epoch'],
    },
    async entry => {
      await updatePersonSwitch(entry, { id, version }, isActive)
      await refuseWithoutAdministrator(entry)
    },
  )
}

async function refuseWithoutAdministrator(entry: EntryTx): Promise<void> {
  if ((await countAdministrators(entry)) === 0) throw new Failure('rule', { rule: 'last-administrator' })
}
