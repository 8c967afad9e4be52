/**
 * Who enters something on a shared tablet: by initials and a short code of her own.
 * Promise: only a hash is kept; unknown initials and a wrong code answer alike, in words and in work done; tries in a
 * row wait longer and longer, as at the sign-in. What is entered is entered with her rights, in her name.
 */
import type { PersonActor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { findPersonActor } from '#lib/db/person.ts'
import { findByInitials, getOwnInitials, writeOwnCode } from '#lib/db/short-code.ts'
import { giveTurnBack } from '#lib/db/sign-in.ts'
import { parse } from '#lib/domain/parse.ts'
import { ownCodeInput, shortCodeInput } from '#lib/domain/short-code.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { hashPassword, isPasswordOf } from './password.ts'
import { beginCodeTry, type TriedFrom } from './sign-in-turn.ts'

/** System: the person whose initials and code these are; Failure 'rule' otherwise. */
export async function findActorByCode(input: unknown, from: TriedFrom): Promise<PersonActor> {
  const { initials, shortCode } = parse(shortCodeInput, input)
  const grant = demand(systemActor('initials and code'), 'system.run')
  const turn = await beginCodeTry(initials, from)
  const known = await findByInitials(grant, initials)
  const fits = await isPasswordOf(known?.codeHash, shortCode)
  const actor =
    known !== undefined && fits ? await findPersonActor(grant, known.personId, known.epoch) : undefined
  if (actor === undefined) throw new Failure('rule', { rule: 'short-code-unknown', field: 'shortCode' })
  await giveTurnBack(grant, turn)
  return actor
}

/** Her own initials, where she has chosen some. */
export async function getInitials(actor: PersonActor): Promise<string | null> {
  return getOwnInitials(demand(actor, 'account.own'))
}

/** Her own initials and code. */
export async function chooseOwnCode(actor: PersonActor, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'account.own')
  const { initials, shortCode } = parse(ownCodeInput, input)
  const codeHash = await hashPassword(shortCode)
  const about = {
    now,
    action: 'short code chosen',
    subject: 'person',
    subjectId: actor.personId,
    columns: ['initials', 'code_hash'],
  }
  await inEntry(grant, about, entry => writeOwnCode(grant, entry, { initials, codeHash }))
}
