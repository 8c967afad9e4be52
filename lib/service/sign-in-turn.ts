/**
 * A try to say who one is: taken in turn, noted, given back when it was right.
 * Promise: the sentence of a refusal says how long to wait; whoever was let in from an address before waits there for
 * her own tries only. Internal to lib/service.
 */
import { createHmac } from 'node:crypto'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import {
  forgetOldSignIns,
  giveTurnBack,
  isUsualAddress,
  noteSignIn,
  type SignInWay,
  type Turn,
  takeTurn,
  type WaitKey,
} from '#lib/db/sign-in.ts'
import { env } from '#lib/env.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { waitWords } from '#lib/words/sign-in.ts'

/** Where a try comes from, and when. */
export type TriedFrom = { readonly address: string; readonly now: Date }

/** System: begins a try for an account; Failure 'rule' says how long to wait where it must. */
export async function beginTry(email: string, from: TriedFrom): Promise<Turn> {
  const grant = demand(systemActor('sign-in'), 'system.run')
  const pair: WaitKey = { kind: 'pair', key: keyed('pair', email, from.address) }
  const wider: WaitKey[] = (await isUsualAddress(grant, email, from.address))
    ? []
    : [
        { kind: 'account', key: keyed('account', email) },
        { kind: 'address', key: keyed('address', from.address) },
      ]
  return takeOrWait([pair, ...wider], from.now)
}

/** System: takes the turn of somebody who asks for a way back into an account; counted apart from passwords. */
export async function beginReset(email: string, from: TriedFrom): Promise<void> {
  await takeOrWait(
    [
      { kind: 'pair', key: keyed('way back', email, from.address) },
      { kind: 'address', key: keyed('way back', from.address) },
    ],
    from.now,
  )
}

/** System: begins a try to say by initials and code who enters something; counted apart from passwords. */
export async function beginCodeTry(initials: string, from: TriedFrom): Promise<Turn> {
  const keys: WaitKey[] = [
    { kind: 'pair', key: keyed('code', initials, from.address) },
    { kind: 'account', key: keyed('code', initials) },
    { kind: 'address', key: keyed('code', from.address) },
  ]
  return takeOrWait(keys, from.now, 'shortCode')
}

async function takeOrWait(keys: readonly WaitKey[], now: Date, field = 'email'): Promise<Turn> {
  const taken = await takeTurn(demand(systemActor('sign-in'), 'system.run'), keys, now)
  if ('turn' in taken) return taken.turn
  throw new Failure('rule', {
    rule: 'sign-in-wait',
    field,
    data: { say: waitWords(taken.seconds), seconds: taken.seconds },
  })
}

/** System: the try was right. */
export async function endRightTry(turn: Turn, personId: number, from: TriedFrom): Promise<void> {
  const grant = demand(systemActor('sign-in'), 'system.run')
  await giveTurnBack(grant, turn)
  await noteLetIn(personId, 'password', from)
}

/** System: a try in the name of somebody who is here was refused. */
export async function noteRefusedTry(personId: number, { address, now }: TriedFrom): Promise<void> {
  const grant = demand(systemActor('sign-in'), 'system.run')
  await noteSignIn(grant, { personId, at: now, how: 'password', address, wasLetIn: false })
}

/** System: somebody was let in. */
export async function noteLetIn(
  personId: number,
  how: SignInWay,
  { address, now }: TriedFrom,
): Promise<void> {
  const grant = demand(systemActor('sign-in'), 'system.run')
  await noteSignIn(grant, { personId, at: now, how, address, wasLetIn: true })
  await forgetOldSignIns(grant, now)
}

function keyed(...parts: readonly string[]): string {
  return createHmac('sha256', env().NEXTAUTH_SECRET).update(parts.join('\n')).digest('base64url')
}
