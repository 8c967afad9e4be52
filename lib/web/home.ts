/**
 * Where each person begins: the first page her roles open.
 */
import 'server-only'
import type { Route } from 'next'
import type { Actor } from '#lib/authz/actor.ts'
import { may } from '#lib/authz/demand.ts'
import { paths } from './paths.ts'

/** The first page that an actor may read; the front page when nothing that is built is hers. */
export function homeOf(actor: Actor): Route {
  return may(actor, 'call.read') ? paths.calls() : paths.front()
}
