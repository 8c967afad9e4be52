/**
 * How a call was answered: what was shown, what was taken, which references were given.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findAnsweredCall } from '#lib/db/call-pair.ts'
import { findDecision } from '#lib/db/decision.ts'
import type { PlacementOption } from '#lib/domain/option.ts'

export type CallOutcome = {
  readonly at: Date
  readonly by: string | null
  readonly takenKey: string
  readonly option: PlacementOption | undefined
  readonly shown: readonly PlacementOption[]
  readonly references: readonly string[]
  readonly reason: string | null
}

/** The newest decision on a call, or on another about the same animal; undefined while there is none. */
export async function findCallOutcome(actor: Actor, callId: number): Promise<CallOutcome | undefined> {
  const grant = demand(actor, 'call.read')
  const answered = await findAnsweredCall(grant, callId)
  const decision = answered === undefined ? undefined : await findDecision(grant, answered)
  if (decision === undefined) return undefined
  const { ranked, ...kept } = decision
  return {
    ...kept,
    shown: ranked.options,
    option: ranked.options.find(option => option.key === decision.takenKey),
  }
}
