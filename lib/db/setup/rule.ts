/**
 * Rules of handling and licence. Promise: a rule keeps its kind and key, by which species name it. Writes run inside an
 * entry and over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { RULE_KINDS, type Rule, type RuleKind, ruleFields } from '#lib/domain/knowledge-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { civilDate, dateColumn } from './civil-date.ts'
import { refuseStale } from './stale.ts'

export type RuleKey = { readonly kind: RuleKind; readonly key: string }
export type RuleRow = Rule & RuleKey & { readonly version: number }

export async function listRuleRows(_grant: Grant): Promise<RuleRow[]> {
  const rows = await db().referenceKey.findMany({
    where: { kind: { in: [...RULE_KINDS] } },
    orderBy: [{ kind: 'desc' }, { key: 'asc' }],
  })
  return rows.map(ruleOf)
}

export async function getRuleRow(_grant: Grant<'setup.read'>, { kind, key }: RuleKey): Promise<RuleRow> {
  const row = await db().referenceKey.findUnique({ where: { kind_key: { kind, key } } })
  if (row === null) throw new Failure('not-found')
  return ruleOf(row)
}

/** The species that a rule is said of. */
export async function listSpeciesUnder(
  _grant: Grant<'setup.read'>,
  { kind, key }: RuleKey,
): Promise<{ readonly slug: string; readonly commonName: string }[]> {
  const named = kind === 'licence' ? { licenceKeys: { has: key } } : { handlingCautions: { has: key } }
  return db().species.findMany({
    where: { isActive: true, ...named },
    select: { slug: true, commonName: true },
    orderBy: { commonName: 'asc' },
  })
}

export async function insertRule({ tx }: EntryTx, at: RuleKey, rule: Rule): Promise<void> {
  const { reviewedOn, ...rest } = rule
  const made = await tx.referenceKey.createMany({
    data: [{ ...at, ...rest, reviewedOn: dateColumn(reviewedOn) }],
    skipDuplicates: true,
  })
  if (made.count === 0) throw new Failure('rule', { rule: 'key-there-already', field: 'key' })
}

export async function updateRule(
  { tx }: EntryTx,
  { kind, key, version }: RuleKey & { readonly version: number },
  { reviewedOn, ...rule }: Rule,
): Promise<void> {
  const written = await tx.referenceKey.updateMany({
    where: { kind, key, version },
    data: { ...rule, reviewedOn: dateColumn(reviewedOn), version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    tx.referenceKey.findUnique({ where: { kind_key: { kind, key } }, select: { version: true } }),
  )
}

type Row = Omit<RuleRow, 'kind' | 'reviewedOn' | 'clockHolders'> & {
  readonly kind: string
  readonly clockHolders: readonly string[]
  readonly reviewedOn: Date | null
}

function ruleOf({ kind, reviewedOn, clockHolders, ...row }: Row): RuleRow {
  return {
    ...row,
    clockHolders: ruleFields.clockHolders.parse(clockHolders.join('; ')),
    kind: ruleFields.kind.parse(kind),
    reviewedOn: civilDate(reviewedOn),
  }
}
