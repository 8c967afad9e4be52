/**
 * Conditions in setup: what finders say, and what it maps to. Promise: an urgency, skill, quarantine or caution that was
 * changed is ours, unless another source is named. A condition that is switched off is offered on no call; animals keep theirs.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  type ConditionDetail,
  getConditionDetail,
  insertCondition,
  listConditionRows,
  updateCondition,
} from '#lib/db/setup/condition.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { type ConditionValues, conditionForm } from '#lib/domain/condition-form.ts'
import { slugOf } from '#lib/domain/knowledge-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { sourcedMark } from '#lib/domain/review.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'

const COLUMNS = ['name', 'words', 'urgency', 'surgeon', 'quarantine', 'asks_first', 'cautions']

export async function listConditions(actor: Actor): Promise<ConditionDetail[]> {
  return listConditionRows(demand(actor, 'setup.read'))
}

export async function getCondition(actor: Actor, slug: string): Promise<ConditionDetail> {
  return getConditionDetail(demand(actor, 'setup.read'), slug)
}

export async function addCondition(actor: Actor, input: unknown, now: Date): Promise<string> {
  const grant = demand(actor, 'setup.knowledge')
  const condition = parse(conditionForm, input)
  const slug = slugOf(condition.name)
  await inEntry(
    grant,
    { now, action: 'added', subject: 'condition', subjectId: slug, columns: COLUMNS },
    entry => insertCondition(entry, slug, condition),
  )
  return slug
}

export async function changeCondition(actor: Actor, slug: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version } = parse(versionForm, input)
  const typed = parse(conditionForm, input)
  const before = await getConditionDetail(demand(actor, 'setup.read'), slug)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'condition', subjectId: slug, columns: COLUMNS },
    entry => updateCondition(entry, { id: slug, version }, withMarks(before, typed)),
  )
}

export async function switchCondition(actor: Actor, slug: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version, isActive } = parse(switchForm, input)
  const action = isActive ? 'switched on' : 'switched off'
  await inEntry(
    grant,
    { now, action, subject: 'condition', subjectId: slug, columns: ['is_active'] },
    entry => updateCondition(entry, { id: slug, version }, { isActive }),
  )
}

const MARKED = {
  markUrgency: 'defaultUrgency',
  markSurgeon: 'mayNeedSurgeon',
  markDeadline: 'deadlineNote',
  markQuarantine: 'quarantine',
  markCautions: 'cautions',
} as const satisfies Partial<Record<keyof ConditionValues, keyof ConditionValues>>

function withMarks(before: ConditionValues, typed: ConditionValues): ConditionValues {
  const said = (of: ConditionValues, mark: keyof typeof MARKED) => [of[MARKED[mark]]].flat().toSorted()
  const markOf = (mark: keyof typeof MARKED) =>
    sourcedMark(
      { said: said(before, mark), mark: before[mark] },
      { said: said(typed, mark), mark: typed[mark] },
      OURS,
    )
  return {
    ...typed,
    markUrgency: markOf('markUrgency') ?? OURS,
    markSurgeon: markOf('markSurgeon'),
    markDeadline: markOf('markDeadline'),
    markQuarantine: markOf('markQuarantine'),
    markCautions: markOf('markCautions'),
  }
}
