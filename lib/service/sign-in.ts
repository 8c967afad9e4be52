/**
 * Who somebody is: by e-mail and password once, by her session at each request.
 * Promise: an unknown e-mail and a wrong password answer alike, in words and in work done.
 */
import { type PersonActor, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findCredentials, findPersonActor } from '#lib/db/person.ts'
import { parse } from '#lib/domain/parse.ts'
import { signInForm } from '#lib/domain/sign-in.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { isPasswordOf } from './password.ts'

export type SignedIn = { readonly personId: number; readonly epoch: number }

/** System: the person whose e-mail and password these are; Failure 'rule' otherwise. */
export async function checkSignIn(typed: unknown): Promise<SignedIn> {
  const { email, password } = parse(signInForm, typed)
  const known = await findCredentials(demand(systemActor('sign-in'), 'system.run'), email)
  const fits = await isPasswordOf(known?.passwordHash, password)
  if (known === undefined || !fits) throw new Failure('rule', { rule: 'sign-in-unknown', field: 'email' })
  return { personId: known.personId, epoch: known.epoch }
}

/** System: the person who has an e-mail, without a password; the caller lets this through in the demonstration only. */
export async function getDemoPerson(email: string): Promise<SignedIn> {
  const known = await findCredentials(demand(systemActor('demo sign-in'), 'system.run'), email)
  if (known === undefined) throw new Failure('not-found')
  return { personId: known.personId, epoch: known.epoch }
}

/** System: the actor of a session, with the roles of this moment; undefined once her sessions were ended. */
export async function findActor(personId: number, epoch: number): Promise<PersonActor | undefined> {
  return findPersonActor(demand(systemActor('session'), 'system.run'), personId, epoch)
}
