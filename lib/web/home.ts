/**
 * Where each person begins: the first page her roles open.
 */
import 'server-only'
import type { Route } from 'next'
import type { Actor } from '#lib/authz/actor.ts'
import { may } from '#lib/authz/demand.ts'
import { paths } from './paths.ts'

/** The first page that an actor may read; whoever has several roles begins with what is due in all of them. */
export function homeOf(actor: Actor): Route {
  if (new Set(actor.roles.map(({ role }) => role)).size > 1) return paths.due()
  if (may(actor, 'call.take')) return paths.calls()
  if (may(actor, 'casualty.record')) return paths.round()
  if (may(actor, 'forecast.read')) return paths.weeks()
  if (may(actor, 'setup.read')) return paths.setup()
  return paths.casualties()
}
