/**
 * Groups of species in setup: temperament, usual company and numbers, carers' minutes, and when they were last looked at.
 * Promise: a temperament or numbers that were changed are ours, unless another source is named.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { type CompanyChoice, listCompanyChoices } from '#lib/db/setup/choice.ts'
import { type GroupRow, getGroupRow, listGroupRows, updateGroup } from '#lib/db/setup/group.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { groupForm } from '#lib/domain/knowledge-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { sourcedMark } from '#lib/domain/review.ts'
import { versionForm } from '#lib/domain/setup-form.ts'
import { refuseFutureReview } from './review.ts'

const COLUMNS = ['name', 'temperament', 'company', 'stock', 'minutes', 'reviewed_on']

export async function listGroups(actor: Actor): Promise<GroupRow[]> {
  return listGroupRows(demand(actor, 'setup.read'))
}

export type GroupPage = { readonly group: GroupRow; readonly companies: readonly CompanyChoice[] }

export async function getGroup(actor: Actor, slug: string): Promise<GroupPage> {
  const grant = demand(actor, 'setup.read')
  const [group, companies] = await Promise.all([getGroupRow(grant, slug), listCompanyChoices(grant)])
  return { group, companies }
}

export async function changeGroup(actor: Actor, slug: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version } = parse(versionForm, input)
  const typed = parse(groupForm, input)
  await refuseFutureReview(grant, typed.reviewedOn, now)
  const before = await getGroupRow(demand(actor, 'setup.read'), slug)
  const temperamentMark = sourcedMark(
    { said: before.temperament, mark: before.temperamentMark },
    { said: typed.temperament, mark: typed.temperamentMark },
    OURS,
  )
  const stockMark = sourcedMark(
    { said: sorted(before.stock), mark: before.stockMark },
    { said: sorted(typed.stock), mark: typed.stockMark },
    OURS,
  )
  const minutesMark = sourcedMark(
    { said: sorted(before.minutes), mark: before.minutesMark },
    { said: sorted(typed.minutes), mark: typed.minutesMark },
    OURS,
  )
  const group = {
    ...typed,
    temperamentMark: temperamentMark ?? OURS,
    stockMark: stockMark ?? OURS,
    minutesMark: minutesMark ?? OURS,
  }
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'group', subjectId: slug, columns: COLUMNS },
    entry => updateGroup(entry, { id: slug, version }, group),
  )
}

const sorted = (stock: object) => Object.entries(stock).sort()
