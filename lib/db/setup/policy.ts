/**
 * The network's policy, one row. Promise: another preset brings its two weights with it; the same preset leaves weights
 * that an administrator set as they are. Written over the version that was read.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import {
  type Policy,
  type PolicyChoice,
  PRESET_WEIGHTS,
  policyFields,
  type Weights,
} from '#lib/domain/policy.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export type PolicyDetail = Policy & Weights & { readonly version: number }

export async function getPolicy(_grant: Grant<'setup.read'>): Promise<PolicyDetail> {
  const row = await db().policy.findFirst({ omit: { id: true } })
  if (row === null) throw new Failure('rule', { rule: 'network-not-set-up' })
  return { ...row, preset: policyFields.preset.parse(row.preset) }
}

export async function updatePolicy({ tx }: EntryTx, version: number, choice: PolicyChoice): Promise<void> {
  const before = await tx.policy.findFirst({ select: { preset: true } })
  const weights = before?.preset === choice.preset ? {} : PRESET_WEIGHTS[choice.preset]
  await write(tx, version, { ...choice, ...weights })
}

export async function updateWeights({ tx }: EntryTx, version: number, weights: Weights): Promise<void> {
  await write(tx, version, weights)
}

async function write(
  tx: EntryTx['tx'],
  version: number,
  change: Partial<PolicyChoice> & Partial<Weights>,
): Promise<void> {
  const written = await tx.policy.updateMany({
    where: { version },
    data: { ...change, version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.policy.findFirst({ select: { version: true } }))
}
