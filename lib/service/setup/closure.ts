/**
 * Closures in setup: planned for an enclosure, listed, with whoever is in.
 * Promise: an enclosure with animals in it may be closed too; they then are the list to move.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type EnclosureChoice, listEnclosureChoices } from '#lib/db/setup/choice.ts'
import { type ClosureRow, getClosureRow, listClosureRows, listReferencesIn } from '#lib/db/setup/closure.ts'
import { parse } from '#lib/domain/parse.ts'
import { integerText } from '#lib/domain/text.ts'
import { closeEnclosure } from '../closure.ts'

const OVER_MAX = 20
const whichForm = z.object({ enclosureId: integerText.pipe(z.int().positive()) })

export type ClosureList = { readonly open: readonly ClosureRow[]; readonly over: readonly ClosureRow[] }

export async function listClosures(actor: Actor, now: Date): Promise<ClosureList> {
  return listClosureRows(demand(actor, 'setup.read'), now, OVER_MAX)
}

export type ClosurePage = {
  readonly closure: ClosureRow
  readonly state: 'planned' | 'closed' | 'over'
  readonly inside: readonly string[]
}

export async function getClosure(actor: Actor, id: number, now: Date): Promise<ClosurePage> {
  const grant = demand(actor, 'setup.read')
  const closure = await getClosureRow(grant, id)
  return { closure, state: stateAt(closure, now), inside: await listReferencesIn(grant, closure.enclosureId) }
}

/** The enclosures that can be closed. */
export async function newClosureForm(actor: Actor): Promise<EnclosureChoice[]> {
  return listEnclosureChoices(demand(actor, 'setup.closures'))
}

/** Closes the enclosure that a form names; returns the closure's number and the promises it broke. */
export async function planClosure(
  actor: Actor,
  input: unknown,
  now: Date,
): Promise<{ readonly id: number; readonly broken: number }> {
  demand(actor, 'setup.closures')
  const { enclosureId } = parse(whichForm, input)
  const { made, broken } = await closeEnclosure(actor, enclosureId, input, now)
  return { id: made, broken: broken.length }
}

function stateAt({ startsAt, endsAt, liftedAt }: ClosureRow, now: Date): ClosurePage['state'] {
  if (liftedAt !== null || (endsAt !== null && endsAt.getTime() <= now.getTime())) return 'over'
  return startsAt.getTime() > now.getTime() ? 'planned' : 'closed'
}
