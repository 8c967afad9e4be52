/**
 * The one way to make a server action.
 * Promise: resolves who asks, reads the form, runs the handler, refreshes and redirects; a refusal comes back as state
 * with its words, its fields and everything typed. Next's control flow passes through. Holds no rule and no permission:
 * those are in the service, so that routes, imports and seeds pass the same gate.
 */
import 'server-only'
import type { Route } from 'next'
import { redirect, unstable_rethrow } from 'next/navigation'
import type { PersonActor } from '#lib/authz/actor.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { findActorByCode } from '#lib/service/short-code.ts'
import { currentAddress } from './address.ts'
import { currentNow } from './clock.ts'
import { refusedState } from './errors.ts'
import { type FormInput, pictureOf, readForm, typedValues, withFileTexts } from './form.ts'
import type { FormState } from './form-state.ts'
import { type Noun, refresh } from './refresh.ts'
import { currentActor, isSharedSession } from './session.ts'

/** Where the browser goes after a success, and what changed. */
export type Done = { readonly to: Route; readonly refresh?: readonly Noun[] }

/** What is shown once on the same page, such as a link just made, and what changed. */
export type Told = { readonly told: Readonly<Record<string, string>>; readonly refresh?: readonly Noun[] }

export type Action = (before: FormState, data: FormData) => Promise<FormState>

type Asked = {
  readonly form: FormInput
  /** The bytes of the field `picture`, which is never text. */
  readonly picture: Uint8Array | undefined
  readonly now: Date
}

/** An action for signed-in people: the handler parses by calling the service and returns where to go. */
export function defineAction(
  handler: (asked: Asked & { readonly actor: PersonActor }) => Promise<Done | Told>,
): Action {
  return run(async asked => {
    const actor = await currentActor()
    if (actor === undefined) throw new Failure('signed-out')
    // Nobody knows who stands before a shared tablet: what does not ask for it is not entered there.
    if (await isSharedSession()) throw new Failure('forbidden', { rule: 'shared-tablet' })
    return handler({ ...asked, actor })
  })
}

/** An action that a shared tablet has too: there its actor is whoever gives her initials and code. */
export function defineSharedAction(
  handler: (asked: Asked & { readonly actor: PersonActor }) => Promise<Done | Told>,
): Action {
  return run(async asked => {
    const actor = await currentActor()
    if (actor === undefined) throw new Failure('signed-out')
    if (!(await isSharedSession())) return handler({ ...asked, actor })
    const from = { address: await currentAddress(), now: asked.now }
    return handler({ ...asked, actor: await findActorByCode(asked.form, from) })
  })
}

/** An action for anybody: signing in and out. */
export function definePublicAction(handler: (asked: Asked) => Promise<Done | Told>): Action {
  return run(handler)
}

function run(handler: (asked: Asked) => Promise<Done | Told>): Action {
  return async (_before, sent) => {
    const picture = await pictureOf(sent)
    const data = await withFileTexts(sent)
    let done: Done | Told
    try {
      done = await handler({ form: readForm(data), picture, now: await currentNow() })
      refresh(...(done.refresh ?? []))
    } catch (thrown) {
      unstable_rethrow(thrown)
      return refusedState(thrown, typedValues(data), [...new Set(data.keys())])
    }
    if ('told' in done) return { status: 'told', fieldErrors: {}, values: {}, told: done.told }
    redirect(done.to)
  }
}
