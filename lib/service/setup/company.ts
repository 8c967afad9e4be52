/**
 * Companies in setup: who may share, on which side they stand, where they are taken.
 * Promise: a company changes side only while none of it is in a room that keeps sides apart; the refusal names them.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  type CompanyRow,
  getCompanyRow,
  insertCompany,
  listApart,
  listCompanyRows,
  listStocked,
  type StockedRow,
  updateCompany,
} from '#lib/db/setup/company.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { companyForm, newCompanyForm } from '#lib/domain/knowledge-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { sourcedMark } from '#lib/domain/review.ts'
import { versionForm } from '#lib/domain/setup-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { occupiedWords } from '#lib/words/setup-refusal.ts'

const COLUMNS = ['members', 'preys', 'mark']
const STOCKED_MAX = 20

export async function listCompanies(actor: Actor): Promise<CompanyRow[]> {
  return listCompanyRows(demand(actor, 'setup.read'))
}

export type CompanyPage = { readonly company: CompanyRow; readonly stocked: readonly StockedRow[] }

export async function getCompany(actor: Actor, slug: string): Promise<CompanyPage> {
  const grant = demand(actor, 'setup.read')
  const [company, stocked] = await Promise.all([
    getCompanyRow(grant, slug),
    listStocked(grant, slug, STOCKED_MAX),
  ])
  return { company, stocked }
}

/** Throws unless what the trade knows may be changed. */
export async function newKnowledgeForm(actor: Actor): Promise<void> {
  demand(actor, 'setup.knowledge')
}

export async function addCompany(actor: Actor, input: unknown, now: Date): Promise<string> {
  const grant = demand(actor, 'setup.knowledge')
  const { slug, ...company } = parse(newCompanyForm, input)
  await inEntry(
    grant,
    { now, action: 'added', subject: 'company', subjectId: slug, columns: COLUMNS },
    entry => insertCompany(entry, slug, company),
  )
  return slug
}

export async function changeCompany(actor: Actor, slug: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version } = parse(versionForm, input)
  const typed = parse(companyForm, input)
  const before = await getCompanyRow(demand(actor, 'setup.read'), slug)
  const mark = sourcedMark(
    { said: [before.members, before.preys], mark: before.mark },
    { said: [typed.members, typed.preys], mark: typed.mark },
    OURS,
  )
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'company', subjectId: slug, columns: COLUMNS },
    async entry => {
      await updateCompany(entry, { id: slug, version }, { ...typed, mark: mark ?? OURS })
      if (before.preys === typed.preys) return
      const concerned = await listApart(entry, slug, now)
      if (concerned.length === 0) return
      const names = (isPromise: boolean) =>
        concerned.filter(one => one.isPromise === isPromise).map(one => one.reference)
      const say = occupiedWords('company', { inside: names(false), promised: names(true) })
      throw new Failure('rule', { rule: 'occupied', data: { say } })
    },
  )
}
