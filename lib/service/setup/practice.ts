/**
 * Setting up partner practices: hours, night cover, what they see.
 * Promise: a practice that keeps an animal now is not switched off; the refusal names it.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { type GroupChoice, listGroupChoices } from '#lib/db/setup/choice.ts'
import { listAskedFor, listAtPractice } from '#lib/db/setup/occupant.ts'
import {
  getPracticeDetail,
  insertPractice,
  listPractices as listRows,
  type PracticeDetail,
  updatePractice,
  updatePracticeSwitch,
} from '#lib/db/setup/practice.ts'
import { parse } from '#lib/domain/parse.ts'
import { practiceForm } from '#lib/domain/practice.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { refuseSwitchOff } from './occupied.ts'

const COLUMNS = ['name', 'phone', 'position', 'hours', 'night_cover', 'sees', 'note']

export async function listPractices(actor: Actor): Promise<PracticeDetail[]> {
  return listRows(demand(actor, 'setup.read'))
}

export type PracticeForm = {
  readonly practice: PracticeDetail | undefined
  readonly groups: readonly GroupChoice[]
}

export async function getPracticeForm(actor: Actor, id: number): Promise<PracticeForm> {
  const grant = demand(actor, 'setup.read')
  const [practice, groups] = await Promise.all([getPracticeDetail(grant, id), listGroupChoices(grant)])
  return { practice, groups }
}

export async function newPracticeForm(actor: Actor): Promise<PracticeForm> {
  return { practice: undefined, groups: await listGroupChoices(demand(actor, 'setup.practices')) }
}

export async function addPractice(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'setup.practices')
  const practice = parse(practiceForm, input)
  return inEntry(
    grant,
    { now, action: 'added', subject: 'practice', subjectId: id => id, columns: COLUMNS },
    entry => insertPractice(entry, practice),
  )
}

export async function changePractice(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.practices')
  const { version } = parse(versionForm, input)
  const practice = parse(practiceForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'practice', subjectId: id, columns: COLUMNS },
    entry => updatePractice(entry, { id, version }, practice),
  )
}

export async function switchPractice(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.practices')
  const { version, isActive } = parse(switchForm, input)
  await inEntry(
    grant,
    {
      now,
      action: isActive ? 'switched on' : 'switched off',
      subject: 'practice',
      subjectId: id,
      columns: ['is_active'],
    },
    async entry => {
      await updatePracticeSwitch(entry, { id, version }, isActive)
      if (isActive) return
      refuseSwitchOff(await listAtPractice(entry, id), await listAskedFor(entry, { practiceId: id }))
    },
  )
}
