/**
 * Where each person begins: the first page her roles open.
 */
import 'server-only'
import type { Route } from 'next'
import type { Actor } from '#lib/authz/actor.ts'
import { may } from '#lib/authz/demand.ts'
import { paths } from './paths.ts'

/** The first page that an actor may read; the list of her own cases when nothing else is hers. */
export function homeOf(actor: Actor): Route {
  if (may(actor, 'call.take')) return paths.calls()
  if (may(actor, 'casualty.record')) return paths.round()
  if (may(actor, 'forecast.read')) return paths.weeks()
  if (may(actor, 'setup.read')) return paths.setup()
  return paths.casualties()
}
