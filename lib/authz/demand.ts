/**
 * The one gate. A `Grant` can only come from `demand`: its brand is a symbol this file keeps to itself, and every
 * function of lib/db takes the right one first, so a missing check does not compile.
 * Refuses with Failure 'not-found' for a row the actor cannot see and 'forbidden' for an action on one it can.
 */
import { Failure } from '#lib/kernel/failure.ts'
import type { Actor, HeldRole } from './actor.ts'
import { type Permission, type Reach, ruleOf } from './policy.ts'

/** How far a grant reaches; lists must apply it. */
export type Scope =
  | { readonly kind: 'everywhere' }
  | { readonly kind: 'own'; readonly centreIds: readonly number[]; readonly practiceIds: readonly number[] }

/** What a row belongs to: the centres and practices that are concerned with it now. */
export type Row = { readonly centreIds?: readonly number[]; readonly practiceIds?: readonly number[] }

const made = Symbol('made by demand')

/** Proof that the actor may; names the permission, the actor and the reach. */
export type Grant<P extends Permission = Permission> = {
  readonly [made]: true
  readonly permission: P
  readonly actor: Actor
  readonly scope: Scope
}

/** The grant for a permission, on a row where one is named; throws Failure otherwise. */
export function demand<P extends Permission>(actor: Actor, permission: P, row?: Row): Grant<P> {
  const scope = scopeOf(actor, permission)
  if (scope !== undefined && reaches(scope, row)) return { [made]: true, permission, actor, scope }
  throw new Failure(row !== undefined && !isVisible(actor, permission, row) ? 'not-found' : 'forbidden')
}

/** Whether `demand` would grant. For showing or hiding only, never as the check. */
export function may(actor: Actor, permission: Permission, row?: Row): boolean {
  const scope = scopeOf(actor, permission)
  return scope !== undefined && reaches(scope, row)
}

/** Whether a scope covers a row; lists that filter outside SQL use it too. */
export function reaches(scope: Scope, row: Row | undefined): boolean {
  if (row === undefined || scope.kind === 'everywhere') return true
  return (
    (row.centreIds ?? []).some(id => scope.centreIds.includes(id)) ||
    (row.practiceIds ?? []).some(id => scope.practiceIds.includes(id))
  )
}

function isVisible(actor: Actor, permission: Permission, row: Row): boolean {
  const seen = ruleOf(permission)?.seen ?? permission
  const scope = scopeOf(actor, seen)
  return scope !== undefined && reaches(scope, row)
}

function scopeOf(actor: Actor, permission: string): Scope | undefined {
  const rule = ruleOf(permission)
  if (rule === undefined) return undefined
  if (actor.kind === 'system') return { kind: 'everywhere' }
  const held = actor.roles.flatMap(role => {
    const reach = Object.hasOwn(rule.by, role.role) ? rule.by[role.role] : undefined
    return reach === undefined ? [] : [{ role, reach }]
  })
  if (held.some(({ reach }) => reach === 'everywhere')) return { kind: 'everywhere' }
  const centreIds = idsOf(held, 'own centres', role => role.centreId)
  const practiceIds = idsOf(held, 'own practice', role => role.practiceId)
  if (centreIds.length === 0 && practiceIds.length === 0) return undefined
  return { kind: 'own', centreIds, practiceIds }
}

function idsOf(
  held: readonly { readonly role: HeldRole; readonly reach: Reach }[],
  reach: Reach,
  idOf: (role: HeldRole) => number | undefined,
): number[] {
  const ids = held.flatMap(one => (one.reach === reach ? (idOf(one.role) ?? []) : []))
  return [...new Set(ids)]
}
