/**
 * Species in setup: names, group and company, sizes, handling, licence facts with source and day of review.
 * Promise: a number or licence fact that was changed is ours, unless another source is named. Animals in care keep the
 * company that they came with.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  type CompanyChoice,
  type GroupChoice,
  listCompanyChoices,
  listGroupChoices,
} from '#lib/db/setup/choice.ts'
import { listRuleRows, type RuleRow } from '#lib/db/setup/rule.ts'
import {
  getSpeciesDetail,
  insertSpecies,
  listSpeciesRows,
  type SpeciesDetail,
  type SpeciesRow,
  updateSpecies,
  updateSpeciesSwitch,
} from '#lib/db/setup/species.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { slugOf } from '#lib/domain/knowledge-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { sourcedMark } from '#lib/domain/review.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { type SpeciesValues, speciesForm } from '#lib/domain/species-form.ts'
import { refuseFutureReview } from './review.ts'

const COLUMNS = ['names', 'group', 'company', 'size', 'handling', 'licences', 'reviewed_on']

export type SpeciesList = {
  readonly rows: readonly SpeciesRow[]
  readonly total: number
  readonly groups: readonly GroupChoice[]
}

export async function listSpecies(
  actor: Actor,
  asked: { readonly group: string | undefined; readonly skip: number; readonly take: number },
): Promise<SpeciesList> {
  const grant = demand(actor, 'setup.read')
  const [page, groups] = await Promise.all([listSpeciesRows(grant, asked), listGroupChoices(grant)])
  return { ...page, groups }
}

export type SpeciesPage = {
  readonly species: SpeciesDetail | undefined
  readonly groups: readonly GroupChoice[]
  readonly companies: readonly CompanyChoice[]
  readonly rules: readonly RuleRow[]
}

export async function getSpeciesForm(actor: Actor, slug: string): Promise<SpeciesPage> {
  const grant = demand(actor, 'setup.read')
  const [species, groups, companies, rules] = await Promise.all([
    getSpeciesDetail(grant, slug),
    listGroupChoices(grant),
    listCompanyChoices(grant),
    listRuleRows(grant),
  ])
  return { species, groups, companies, rules }
}

export async function newSpeciesForm(actor: Actor): Promise<SpeciesPage> {
  const grant = demand(actor, 'setup.knowledge')
  const [groups, companies, rules] = await Promise.all([
    listGroupChoices(grant),
    listCompanyChoices(grant),
    listRuleRows(grant),
  ])
  return { species: undefined, groups, companies, rules }
}

export async function addSpecies(actor: Actor, input: unknown, now: Date): Promise<string> {
  const grant = demand(actor, 'setup.knowledge')
  const species = parse(speciesForm, input)
  await refuseFutureReview(grant, species.reviewedOn, now)
  const slug = slugOf(species.commonName)
  await inEntry(
    grant,
    { now, action: 'added', subject: 'species', subjectId: slug, columns: COLUMNS },
    entry => insertSpecies(entry, slug, species),
  )
  return slug
}

export async function changeSpecies(actor: Actor, slug: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version } = parse(versionForm, input)
  const typed = parse(speciesForm, input)
  await refuseFutureReview(grant, typed.reviewedOn, now)
  const before = await getSpeciesDetail(demand(actor, 'setup.read'), slug)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'species', subjectId: slug, columns: COLUMNS },
    entry => updateSpecies(entry, { id: slug, version }, withMarks(before, typed)),
  )
}

export async function switchSpecies(actor: Actor, slug: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version, isActive } = parse(switchForm, input)
  const action = isActive ? 'switched on' : 'switched off'
  await inEntry(grant, { now, action, subject: 'species', subjectId: slug, columns: ['is_active'] }, entry =>
    updateSpeciesSwitch(entry, { id: slug, version }, isActive),
  )
}

const MARKED = {
  massMark: ['massGLow', 'massGHigh'],
  flightMark: ['flightLengthMinM'],
  youngMark: ['youngFromMonth', 'youngToMonth'],
  licenceMark: ['licenceKeys'],
} as const satisfies Partial<Record<keyof SpeciesValues, readonly (keyof SpeciesValues)[]>>

function withMarks(before: SpeciesValues, typed: SpeciesValues): SpeciesValues {
  const markOf = (mark: keyof typeof MARKED) => {
    const said = (of: SpeciesValues) => MARKED[mark].map(name => [of[name]].flat().toSorted())
    return sourcedMark(
      { said: said(before), mark: before[mark] },
      { said: said(typed), mark: typed[mark] },
      OURS,
    )
  }
  return {
    ...typed,
    massMark: markOf('massMark') ?? OURS,
    flightMark: markOf('flightMark'),
    youngMark: markOf('youngMark'),
    licenceMark: markOf('licenceMark'),
  }
}
