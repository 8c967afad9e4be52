/**
 * A person's own page: her roles and sign-ins, a new password, signing out everywhere.
 * Promise: the old password is asked for, in turn like any try to sign in; both acts end every session she has.
 */
import type { PersonActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import {
  type Account,
  getAccountRow,
  getOwnCredentials,
  writeOwnPassword,
  writeOwnSessionsEnd,
} from '#lib/db/account.ts'
import { inEntry } from '#lib/db/entry.ts'
import { giveTurnBack, listSignIns, type SignInNote } from '#lib/db/sign-in.ts'
import { parse } from '#lib/domain/parse.ts'
import { ownPasswordForm } from '#lib/domain/person.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { hashPassword, isPasswordOf } from './password.ts'
import type { SignedIn } from './sign-in.ts'
import { beginTry, noteRefusedTry, type TriedFrom } from './sign-in-turn.ts'

const SIGN_INS_SHOWN = 12

export type OwnPage = Account & { readonly signIns: readonly SignInNote[] }

export async function getOwnPage(actor: PersonActor): Promise<OwnPage> {
  const grant = demand(actor, 'account.own')
  const [account, signIns] = await Promise.all([getAccountRow(grant), listSignIns(grant, SIGN_INS_SHOWN)])
  return { ...account, signIns }
}

/** A new password of her own; gives what a session that goes on needs. */
export async function changeOwnPassword(
  actor: PersonActor,
  input: unknown,
  from: TriedFrom,
): Promise<SignedIn> {
  const grant = demand(actor, 'account.own')
  const { oldPassword, newPassword } = parse(ownPasswordForm, input)
  const { email, passwordHash: known } = await getOwnCredentials(grant)
  const turn = await beginTry(email, from)
  if (!(await isPasswordOf(known ?? undefined, oldPassword))) {
    await noteRefusedTry(actor.personId, from)
    throw new Failure('rule', { rule: 'old-password-wrong', field: 'oldPassword' })
  }
  await giveTurnBack(grant, turn)
  const passwordHash = await hashPassword(newPassword)
  const epoch = await inEntry(
    grant,
    {
      now: from.now,
      action: 'password changed',
      subject: 'person',
      subjectId: actor.personId,
      columns: ['password_hash', 'session_epoch'],
    },
    entry => writeOwnPassword(grant, entry, passwordHash),
  )
  return { personId: actor.personId, epoch }
}

/** Every session she has ends, this one too. */
export async function endOwnSessions(actor: PersonActor, now: Date): Promise<void> {
  const grant = demand(actor, 'account.own')
  await inEntry(
    grant,
    {
      now,
      action: 'signed out everywhere',
      subject: 'person',
      subjectId: actor.personId,
      columns: ['session_epoch'],
    },
    entry => writeOwnSessionsEnd(grant, entry),
  )
}
