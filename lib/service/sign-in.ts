/**
 * Who somebody is: by e-mail and password once, by her session at each request.
 * Promise: an unknown e-mail and a wrong password answer alike, in words and in work done; tries in a row wait longer
 * and longer; the demonstration's password opens nothing elsewhere.
 */
import { type PersonActor, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findCredentials, findPersonActor } from '#lib/db/person.ts'
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import { parse } from '#lib/domain/parse.ts'
import { signInForm } from '#lib/domain/sign-in.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { isPasswordOf } from './password.ts'
import { beginTry, endRightTry, noteLetIn, noteRefusedTry, type TriedFrom } from './sign-in-turn.ts'

export type SignedIn = { readonly personId: number; readonly epoch: number }
export type TriedHow = TriedFrom & { readonly isDemo: boolean }

/** System: the person whose e-mail and password these are; Failure 'rule' otherwise. */
export async function checkSignIn(typed: unknown, how: TriedHow): Promise<SignedIn> {
  const { email, password } = parse(signInForm, typed)
  const turn = await beginTry(email, how)
  const known = await findCredentials(demand(systemActor('sign-in'), 'system.run'), email)
  const fits = await isPasswordOf(known?.passwordHash ?? undefined, password)
  const isRefused = known === undefined || !fits || (password === DEMO_PASSWORD && !how.isDemo)
  if (isRefused) {
    if (known !== undefined) await noteRefusedTry(known.personId, how)
    throw new Failure('rule', { rule: 'sign-in-unknown', field: 'email' })
  }
  await endRightTry(turn, known.personId, how)
  return { personId: known.personId, epoch: known.epoch }
}

/** System: the person who has an e-mail, without a password; the caller lets this through in the demonstration only. */
export async function getDemoPerson(email: string, from: TriedFrom): Promise<SignedIn> {
  const known = await findCredentials(demand(systemActor('demo sign-in'), 'system.run'), email)
  if (known === undefined) throw new Failure('not-found')
  await noteLetIn(known.personId, 'demonstration', from)
  return { personId: known.personId, epoch: known.epoch }
}

/** System: the actor of a session, with the roles of this moment; undefined once her sessions were ended. */
export async function findActor(personId: number, epoch: number): Promise<PersonActor | undefined> {
  return findPersonActor(demand(systemActor('session'), 'system.run'), personId, epoch)
}
