/**
 * Groups of species in setup: temperament, housing of each stage, usual company and numbers, carers' minutes.
 * Promise: what was changed is ours, unless another source is named. Whoever would live otherwise than the group is housed
 * is named before that is changed; places, promises and plans stay. A group of species that are on is not switched off.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { type CompanyChoice, listCompanyChoices } from '#lib/db/setup/choice.ts'
import {
  type GroupRow,
  getGroupRow,
  insertGroup,
  listGroupRows,
  listHoused,
  updateGroup,
  updateGroupSwitch,
} from '#lib/db/setup/group.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { housedOtherwise } from '#lib/domain/group-housing.ts'
import { type Group, groupForm, newGroupClassForm, slugOf } from '#lib/domain/knowledge-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { sourcedMark } from '#lib/domain/review.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { orAsk } from './breaking.ts'
import { refuseFutureReview } from './review.ts'

const COLUMNS = ['name', 'temperament', 'housing', 'company', 'stock', 'minutes', 'reviewed_on']

export async function listGroups(actor: Actor): Promise<GroupRow[]> {
  return listGroupRows(demand(actor, 'setup.read'))
}

export type GroupPage = { readonly group: GroupRow | undefined; readonly companies: readonly CompanyChoice[] }

export async function getGroup(
  actor: Actor,
  slug: string,
): Promise<GroupPage & { readonly group: GroupRow }> {
  const grant = demand(actor, 'setup.read')
  const [group, companies] = await Promise.all([getGroupRow(grant, slug), listCompanyChoices(grant)])
  return { group, companies }
}

export async function newGroupForm(actor: Actor): Promise<GroupPage> {
  return { group: undefined, companies: await listCompanyChoices(demand(actor, 'setup.knowledge')) }
}

export async function addGroup(actor: Actor, input: unknown, now: Date): Promise<string> {
  const grant = demand(actor, 'setup.knowledge')
  const group = parse(groupForm, input)
  const { class: animalClass } = parse(newGroupClassForm, input)
  await refuseFutureReview(grant, group.reviewedOn, now)
  const slug = slugOf(group.name)
  await inEntry(grant, { now, action: 'added', subject: 'group', subjectId: slug, columns: COLUMNS }, entry =>
    insertGroup(entry, { slug, class: animalClass }, group),
  )
  return slug
}

export async function switchGroup(actor: Actor, slug: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version, isActive } = parse(switchForm, input)
  const action = isActive ? 'switched on' : 'switched off'
  await inEntry(grant, { now, action, subject: 'group', subjectId: slug, columns: ['is_active'] }, entry =>
    updateGroupSwitch(entry, { id: slug, version }, isActive),
  )
}

export async function changeGroup(actor: Actor, slug: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version } = parse(versionForm, input)
  const typed = parse(groupForm, input)
  await refuseFutureReview(grant, typed.reviewedOn, now)
  const before = await getGroupRow(demand(actor, 'setup.read'), slug)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'group', subjectId: slug, columns: COLUMNS },
    async entry => {
      const also = housedOtherwise(before.housing, typed.housing, await listHoused(entry, slug, now))
      await orAsk(grant, entry, { scope: [], input, now, also }, () =>
        updateGroup(entry, { id: slug, version }, withMarks(before, typed)),
      )
    },
  )
}

const MARKED = {
  temperamentMark: 'temperament',
  housingMark: 'housing',
  stockMark: 'stock',
  minutesMark: 'minutes',
} as const satisfies Partial<Record<keyof Group, keyof Group>>

function withMarks(before: Group, typed: Group): Group {
  const markOf = (mark: keyof typeof MARKED) =>
    sourcedMark(
      { said: sorted(before[MARKED[mark]]), mark: before[mark] },
      { said: sorted(typed[MARKED[mark]]), mark: typed[mark] },
      OURS,
    ) ?? OURS
  return {
    ...typed,
    temperamentMark: markOf('temperamentMark'),
    housingMark: markOf('housingMark'),
    stockMark: markOf('stockMark'),
    minutesMark: markOf('minutesMark'),
  }
}

/** Boxes are the same in whatever order they are kept. */
const sorted = (said: string | object) => (typeof said === 'string' ? said : Object.entries(said).sort())
