/**
 * Conditions with the plain words that find them. Writes run inside an entry and over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { CAUTIONS_OF_CONDITIONS } from '#lib/domain/caution.ts'
import { type ConditionValues, conditionFields } from '#lib/domain/condition-form.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type ConditionDetail = ConditionValues & {
  readonly slug: string
  readonly isActive: boolean
  readonly version: number
  readonly plans: number
}

const included = { _count: { select: { carePlanByConditionSlug: { where: { isActive: true } } } } } as const

export async function listConditionRows(_grant: Grant<'setup.read'>): Promise<ConditionDetail[]> {
  const rows = await db().condition.findMany({
    include: included,
    orderBy: [{ isActive: 'desc' }, { name: 'asc' }],
  })
  return rows.map(conditionOf)
}

export async function getConditionDetail(
  _grant: Grant<'setup.read'>,
  slug: string,
): Promise<ConditionDetail> {
  const row = await db().condition.findUnique({ where: { slug }, include: included })
  if (row === null) throw new Failure('not-found')
  return conditionOf(row)
}

export async function insertCondition(
  { tx }: EntryTx,
  slug: string,
  condition: ConditionValues,
): Promise<void> {
  const made = await tx.condition.createMany({ data: [{ slug, ...condition }], skipDuplicates: true })
  if (made.count === 0) throw new Failure('rule', { rule: 'condition_name_once', field: 'name' })
}

export async function updateCondition(
  { tx }: EntryTx,
  { id, version }: { readonly id: string; readonly version: number },
  change: ConditionValues | { readonly isActive: boolean },
): Promise<void> {
  const data = 'cautions' in change ? { ...change, cautions: await withUntold(tx, id, change) } : change
  const written = await tx.condition.updateMany({
    where: { slug: id, version },
    data: { ...data, version: { increment: 1 } },
  })
  await refuseStale(written, () =>
    tx.condition.findUnique({ where: { slug: id }, select: { version: true } }),
  )
}

/** Keys of the reference that setup does not ask about stay as they are. */
async function withUntold(tx: EntryTx['tx'], slug: string, { cautions }: ConditionValues): Promise<string[]> {
  const row = await tx.condition.findUnique({ where: { slug }, select: { cautions: true } })
  return [...(row?.cautions ?? []).filter(key => !isAsked(key)), ...cautions]
}

function isAsked(key: string): key is ConditionValues['cautions'][number] {
  return CAUTIONS_OF_CONDITIONS.some(one => one === key)
}

type Row = Record<'kind' | 'appliesTo' | 'defaultUrgency' | 'quarantine', string> &
  Omit<
    ConditionDetail,
    'kind' | 'appliesTo' | 'defaultUrgency' | 'quarantine' | 'asksFirst' | 'cautions' | 'plans'
  > & {
    readonly asksFirst: readonly string[]
    readonly cautions: readonly string[]
    readonly _count: { readonly carePlanByConditionSlug: number }
  }

function conditionOf({ _count, ...row }: Row): ConditionDetail {
  const { kind, appliesTo, defaultUrgency, quarantine, asksFirst } = conditionFields
  return {
    ...row,
    kind: kind.parse(row.kind),
    appliesTo: appliesTo.parse(row.appliesTo),
    defaultUrgency: defaultUrgency.parse(row.defaultUrgency),
    quarantine: quarantine.parse(row.quarantine),
    asksFirst: asksFirst.parse(row.asksFirst),
    cautions: row.cautions.filter(isAsked),
    plans: _count.carePlanByConditionSlug,
  }
}
