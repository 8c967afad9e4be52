/**
 * The network's policy, one row. Promise: the preset and its two weights are written together, over the version read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { type Policy, PRESET_WEIGHTS, policyFields } from '#lib/domain/policy.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type PolicyDetail = Policy & { readonly version: number }

export async function getPolicy(_grant: Grant<'setup.read'>): Promise<PolicyDetail> {
  const row = await db().policy.findFirst({ omit: { id: true, kappa: true, omega: true } })
  if (row === null) throw new Failure('rule', { rule: 'network-not-set-up' })
  return { ...row, preset: policyFields.preset.parse(row.preset) }
}

export async function updatePolicy({ tx }: EntryTx, version: number, policy: Policy): Promise<void> {
  const written = await tx.policy.updateMany({
    where: { version },
    data: { ...policy, ...PRESET_WEIGHTS[policy.preset], version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.policy.findFirst({ select: { version: true } }))
}
