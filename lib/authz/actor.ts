/**
 * Who asks: a signed-in person with roles, or the system itself with a reason.
 * Promise: a role that is tied to a centre or a practice names it. Where it names none it reaches nothing.
 */

export const ROLES = ['coordinator', 'carer', 'vet', 'manager', 'administrator'] as const
export type Role = (typeof ROLES)[number]

/** A role a person has; a carer's names a centre, a vet's a practice. */
export type HeldRole = {
  readonly role: Role
  readonly centreId?: number
  readonly practiceId?: number
}

export type PersonActor = {
  readonly kind: 'person'
  readonly personId: number
  readonly name: string
  readonly roles: readonly HeldRole[]
}

export type SystemActor = {
  readonly kind: 'system'
  readonly personId: null
  readonly name: 'Roostwright'
  readonly roles: readonly []
  /** Why the system acts; it goes into the audit. */
  readonly reason: string
}

export type Actor = PersonActor | SystemActor

/** The actor of timers, seeds and imports. */
export function systemActor(reason: string): SystemActor {
  return { kind: 'system', personId: null, name: 'Roostwright', roles: [], reason }
}
