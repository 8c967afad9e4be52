/**
 * Setting up people: roles, a first password, a new password, switching off.
 * Promise: a new password and switching off end every session the person has; nobody is switched off, or leaves the desk,
 * who still owes something; somebody who can set people up is always left. Passwords are hashed before anything is written and never read back.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import { countDuties, type Duties, passOnDuties } from '#lib/db/duty.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { listHolders } from '#lib/db/line.ts'
import { listCentreChoices, listPracticeChoices, type Named } from '#lib/db/setup/choice.ts'
import {
  countAdministrators,
  getPersonDetail,
  insertPerson,
  listPeopleRows,
  lockPeople,
  type PersonDetail,
  updatePassword,
  updatePerson,
  updatePersonSwitch,
} from '#lib/db/setup/person.ts'
import { parse } from '#lib/domain/parse.ts'
import { firstPasswordForm, heirForm, leaverForm, passwordForm, personForm } from '#lib/domain/person.ts'
import { versionForm } from '#lib/domain/setup-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { dutiesWords } from '#lib/words/leaver.ts'
import { hashPassword } from '../password.ts'

const COLUMNS = ['name', 'email', 'phone', 'roles']
const PASSED_COLUMNS = ['line_turn.holder_id', 'call.owner_id', 'call_back.owner_id']

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
  const { passTo } = parse(heirForm, input)
  const leavesTheDesk = !person.roles.some(({ role }) => role === 'coordinator')
  const passes = leavesTheDesk && passTo !== null
  await inEntry(
    grant,
    {
      now,
      action: 'changed',
      subject: 'person',
      subjectId: id,
      columns: [...COLUMNS, ...(passes ? PASSED_COLUMNS : [])],
      ...(passes && { reason: `duties to person ${passTo}` }),
    },
    async entry => {
      await lockPeople(entry)
      await updatePerson(entry, { id, version }, person)
      if (leavesTheDesk) await handOver(grant, entry, id, passTo, now)
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

/** What somebody owes by name, and who could take it over. */
export type Leaving = { readonly duties: Duties; readonly heirs: readonly Named[] }

/** What has to be passed on before somebody is switched off; nothing where she owes nothing. */
export async function getLeaving(actor: Actor, id: number): Promise<Leaving | undefined> {
  const grant = demand(actor, 'people.change')
  const duties = await countDuties(grant, id)
  return owesNothing(duties) ? undefined : { duties, heirs: await listHeirs(grant, id) }
}

/** Switches somebody off or on again. Failure 'duties-first' names what she owes while it goes to nobody. */
export async function switchPerson(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'people.change')
  const { version, isActive, passTo } = parse(leaverForm, input)
  const passes = !isActive && passTo !== null
  await inEntry(
    grant,
    {
      now,
      action: isActive ? 'switched on' : 'switched off',
      subject: 'person',
      subjectId: id,
      columns: ['is_active', 'session_epoch', ...(passes ? PASSED_COLUMNS : [])],
      ...(passes && { reason: `duties to person ${passTo}` }),
    },
    async entry => {
      await lockPeople(entry)
      await updatePersonSwitch(entry, { id, version }, isActive)
      if (!isActive) await handOver(grant, entry, id, passTo, now)
      await refuseWithoutAdministrator(entry)
    },
  )
}

async function handOver(
  grant: Grant<'people.change'>,
  entry: EntryTx,
  fromId: number,
  toId: number | null,
  now: Date,
): Promise<void> {
  if (toId !== null) {
    await passOnDuties(grant, entry, fromId, toId, now)
    return
  }
  const duties = await countDuties(grant, fromId, entry.tx)
  if (owesNothing(duties)) return
  const data = { say: dutiesWords(duties), heirs: await listHeirs(grant, fromId) }
  throw new Failure('rule', { rule: 'duties-first', data })
}

async function listHeirs(grant: Grant<'people.change'>, fromId: number): Promise<Named[]> {
  const holders = await listHolders(grant)
  return holders.filter(({ id }) => id !== fromId).map(({ id, name }) => ({ id, name }))
}

function owesNothing({ calls, callBacks, isOnTheLine }: Duties): boolean {
  return calls === 0 && callBacks === 0 && !isOnTheLine
}

async function refuseWithoutAdministrator(entry: EntryTx): Promise<void> {
  if ((await countAdministrators(entry)) === 0) throw new Failure('rule', { rule: 'last-administrator' })
}
