/**
 * Rules of handling and licence in setup, each with source and day of review.
 * Promise: a rule whose words or days were changed is ours, unless another source is named.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  getRuleRow,
  insertRule,
  listRuleRows,
  listSpeciesUnder,
  type RuleKey,
  type RuleRow,
  updateRule,
} from '#lib/db/setup/rule.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { newRuleForm, ruleForm } from '#lib/domain/knowledge-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { sourcedMark } from '#lib/domain/review.ts'
import { versionForm } from '#lib/domain/setup-form.ts'
import { refuseFutureReview } from './review.ts'

const COLUMNS = [
  'meaning',
  'jurisdiction',
  'clock_days',
  'clock_holders',
  'needs_holder',
  'mark',
  'reviewed_on',
]

export async function listRules(actor: Actor): Promise<RuleRow[]> {
  return listRuleRows(demand(actor, 'setup.read'))
}

export type RulePage = {
  readonly rule: RuleRow
  readonly species: readonly { readonly slug: string; readonly commonName: string }[]
}

export async function getRule(actor: Actor, at: RuleKey): Promise<RulePage> {
  const grant = demand(actor, 'setup.read')
  const [rule, species] = await Promise.all([getRuleRow(grant, at), listSpeciesUnder(grant, at)])
  return { rule, species }
}

export async function addRule(actor: Actor, input: unknown, now: Date): Promise<RuleKey> {
  const grant = demand(actor, 'setup.knowledge')
  const { kind, key, ...rule } = parse(newRuleForm, input)
  await refuseFutureReview(grant, rule.reviewedOn, now)
  await inEntry(
    grant,
    { now, action: 'added', subject: 'rule', subjectId: `${kind}.${key}`, columns: COLUMNS },
    entry => insertRule(entry, { kind, key }, rule),
  )
  return { kind, key }
}

export async function changeRule(actor: Actor, at: RuleKey, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { version } = parse(versionForm, input)
  const typed = parse(ruleForm, input)
  await refuseFutureReview(grant, typed.reviewedOn, now)
  const before = await getRuleRow(demand(actor, 'setup.read'), at)
  const mark = sourcedMark(
    {
      said: [before.meaning, before.jurisdiction, before.clockDays, before.clockHolders, before.needsHolder],
      mark: before.mark,
    },
    {
      said: [typed.meaning, typed.jurisdiction, typed.clockDays, typed.clockHolders, typed.needsHolder],
      mark: typed.mark,
    },
    OURS,
  )
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'rule', subjectId: `${at.kind}.${at.key}`, columns: COLUMNS },
    entry => updateRule(entry, { ...at, version }, { ...typed, mark: mark ?? OURS }),
  )
}
