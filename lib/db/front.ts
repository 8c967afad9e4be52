/**
 * What the front page says before anybody is known: counts only, and for a demonstration the call that waits.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'

export type Front = {
  readonly centres: number
  /** Animals in care at centres at this moment. */
  readonly inCare: number
  readonly waitingCallId: number | null
  readonly coordinatorEmail: string | null
}

/** Counts of this moment; the oldest call put aside; who would answer it. */
export async function readFront(_grant: Grant<'system.run'>): Promise<Front> {
  const [centres, inCare, call, coordinator] = await Promise.all([
    db().centre.count({ where: { isActive: true } }),
    db().whereabouts.count({ where: { until: null, keeper: 'centre' } }),
    db().call.findFirst({ where: { state: 'parked' }, orderBy: { id: 'asc' }, select: { id: true } }),
    db().personRole.findFirst({
      where: { role: 'coordinator', person: { isActive: true } },
      orderBy: { id: 'asc' },
      select: { person: { select: { email: true } } },
    }),
  ])
  return {
    centres,
    inCare,
    waitingCallId: call?.id ?? null,
    coordinatorEmail: coordinator?.person.email ?? null,
  }
}
