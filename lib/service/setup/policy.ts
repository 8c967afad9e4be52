/**
 * The policy of the network. Promise: another preset brings its two weights with it; the weights themselves are an
 * administrator's; the next option is ranked by the new ones.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { getPolicy as getRow, type PolicyDetail, updatePolicy, updateWeights } from '#lib/db/setup/policy.ts'
import { parse } from '#lib/domain/parse.ts'
import { policyForm, weightsForm } from '#lib/domain/policy.ts'
import { versionForm } from '#lib/domain/setup-form.ts'

export async function getPolicy(actor: Actor): Promise<PolicyDetail> {
  return getRow(demand(actor, 'setup.read'))
}

export async function changePolicy(actor: Actor, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.policy')
  const { version } = parse(versionForm, input)
  const choice = parse(policyForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'policy', subjectId: 1, columns: Object.keys(choice) },
    entry => updatePolicy(entry, version, choice),
  )
}

export async function changeWeights(actor: Actor, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.weights')
  const { version } = parse(versionForm, input)
  const weights = parse(weightsForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'policy', subjectId: 1, columns: Object.keys(weights) },
    entry => updateWeights(entry, version, weights),
  )
}
