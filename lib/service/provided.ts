/**
 * Who somebody is by what an identity provider says of her.
 * Promise: only a verified e-mail counts, and only of somebody who is set up here and switched on; no account is made.
 */
import { z } from 'zod'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findCredentials } from '#lib/db/person.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { SignedIn } from './sign-in.ts'
import { noteLetIn, type TriedFrom } from './sign-in-turn.ts'

const claims = z.object({
  email: z.string().trim().toLowerCase().min(1),
  email_verified: z.literal(true),
})

/** System: the person whom the provider means; Failure 'rule' where it is nobody here. */
export async function findProvided(profile: unknown): Promise<SignedIn> {
  const said = claims.safeParse(profile)
  const known = said.success
    ? await findCredentials(demand(systemActor('identity provider'), 'system.run'), said.data.email)
    : undefined
  if (known === undefined) throw new Failure('rule', { rule: 'provider-unknown' })
  return { personId: known.personId, epoch: known.epoch }
}

/** System: lets her in, and notes that she came this way. */
export async function checkProvided(profile: unknown, from: TriedFrom): Promise<void> {
  const { personId } = await findProvided(profile)
  await noteLetIn(personId, 'provider', from)
}
