/**
 * Links to set a password: an invitation, or a way back for whoever lost hers.
 * Promise: a new link takes the ones before it back; it works once and not for long; the answer to "forgot" is the same
 * whether or not anybody has that e-mail, and what follows from it happens after the answer.
 */
import { type Actor, systemActor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { createLink, findLink, type Link, revokeLinks, spendLink } from '#lib/db/link.ts'
import { queueMail } from '#lib/db/outbox.ts'
import { findForLink, hasFreshOwnLink, writePasswordByLink } from '#lib/db/password-link.ts'
import { linkStanding } from '#lib/domain/link.ts'
import { parse } from '#lib/domain/parse.ts'
import { passwordForm } from '#lib/domain/person.ts'
import { forgotForm } from '#lib/domain/sign-in.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { type PasswordLink, passwordMail } from '#lib/words/password-link.ts'
import { newToken, tokenHashOf } from './link.ts'
import { isMailSet } from './mail.ts'
import { hashPassword } from './password.ts'
import type { SignedIn } from './sign-in.ts'
import { beginReset, noteLetIn, type TriedFrom } from './sign-in-turn.ts'

const HOUR_MS = 3_600_000
const VALID_HOURS = { invitation: 7 * 24, reset: 24, forgot: 1 } as const
/** Whoever asks again and again gets no more mails than this lets through. */
const FORGOT_PAUSE_MS = 15 * 60_000

/** What became of a link: it is on its way by mail, or has to be handed over. */
export type Handed = { readonly mailedTo: string } | { readonly url: string; readonly validUntil: Date }

export type WayIn = { readonly hasPassword: boolean; readonly isMailed: boolean }

/** How somebody can be let in; nothing for who is switched off. */
export async function getWayIn(actor: Actor, personId: number): Promise<WayIn | undefined> {
  const person = await findForLink(demand(actor, 'people.change'), { id: personId })
  return person === undefined ? undefined : { hasPassword: person.hasPassword, isMailed: isMailSet() }
}

/** A link for somebody: an invitation for whoever has no password yet, else a way to set a new one. */
export async function makePasswordLink(
  actor: Actor,
  personId: number,
  urlOf: (token: string) => string,
  now: Date,
): Promise<Handed> {
  const grant = demand(actor, 'people.change')
  const person = await findForLink(grant, { id: personId })
  if (person === undefined) throw new Failure('rule', { rule: 'link-for-nobody' })
  const purpose: PasswordLink['purpose'] = person.hasPassword ? 'reset' : 'invitation'
  const { token, tokenHash } = newToken()
  const expiresAt = new Date(now.getTime() + VALID_HOURS[purpose] * HOUR_MS)
  const said = { name: person.name, purpose, url: urlOf(token), hours: VALID_HOURS[purpose] }
  const isMailed = isMailSet()
  await inEntry(
    grant,
    {
      now,
      action: purpose === 'reset' ? 'link for a password made' : 'invited',
      subject: 'person',
      subjectId: personId,
    },
    async entry => {
      const id = await replaceLinks(entry, { purpose, personId }, tokenHash, now, expiresAt, actor.personId)
      if (isMailed) await queueLink(entry, id, person.email, said, now)
    },
  )
  return isMailed ? { mailedTo: person.email } : { url: said.url, validUntil: expiresAt }
}

/** System: takes the turn of somebody who asks for a way back; gives what to do once she has her answer. */
export async function askForReset(
  typed: unknown,
  urlOf: (token: string) => string,
  from: TriedFrom,
): Promise<() => Promise<void>> {
  const grant = demand(systemActor('a way back asked for'), 'system.run')
  if (!isMailSet()) throw new Failure('rule', { rule: 'no-mail' })
  const { email } = parse(forgotForm, typed)
  await beginReset(email, from)
  return () => mailReset(grant, email, urlOf, from.now)
}

async function mailReset(
  grant: Grant<'system.run'>,
  email: string,
  urlOf: (token: string) => string,
  now: Date,
): Promise<void> {
  const person = await findForLink(grant, { email })
  if (person === undefined) return
  if (await hasFreshOwnLink(grant, person.id, new Date(now.getTime() - FORGOT_PAUSE_MS))) return
  const { token, tokenHash } = newToken()
  const expiresAt = new Date(now.getTime() + VALID_HOURS.forgot * HOUR_MS)
  const said = { name: person.name, purpose: 'reset', url: urlOf(token), hours: VALID_HOURS.forgot } as const
  await inEntry(
    grant,
    { now, action: 'link for a password asked for', subject: 'person', subjectId: person.id },
    async entry => {
      const subject = { purpose: 'reset', personId: person.id } as const
      const id = await replaceLinks(entry, subject, tokenHash, now, expiresAt, null)
      await queueLink(entry, id, person.email, said, now)
    },
  )
}

/** Both kinds open the same door, so a new one of either takes back both. */
async function replaceLinks(
  { tx }: EntryTx,
  subject: { readonly purpose: 'invitation' | 'reset'; readonly personId: number },
  tokenHash: string,
  madeAt: Date,
  expiresAt: Date,
  madeBy: number | null,
): Promise<number> {
  await revokeLinks(tx, { purpose: 'invitation', personId: subject.personId }, madeAt)
  await revokeLinks(tx, { purpose: 'reset', personId: subject.personId }, madeAt)
  return createLink(tx, { tokenHash, subject, madeAt, madeBy, expiresAt })
}

async function queueLink(
  { tx }: EntryTx,
  linkId: number,
  to: string,
  said: PasswordLink,
  at: Date,
): Promise<void> {
  await queueMail(tx, { key: `password-link ${linkId}`, to, at, ...passwordMail(said) })
}

/** What the page of a link shows. */
export type PasswordDoor = { readonly email: string; readonly name: string; readonly isInvitation: boolean }

/** System: whom an open link is for; Failure 'rule' says why it opens nothing, 'not-found' that it never did. */
export async function readPasswordLink(token: string, now: Date): Promise<PasswordDoor> {
  const { link, person } = await openDoor(token, now)
  return { email: person.email, name: person.name, isInvitation: link.subject.purpose === 'invitation' }
}

/** System: sets the password of whom the link is for, once, and lets her in. */
export async function setPasswordByLink(
  token: string,
  input: unknown,
  { address, now }: TriedFrom,
): Promise<SignedIn> {
  const grant = demand(systemActor('one-time link'), 'system.run')
  const { newPassword } = parse(passwordForm, input)
  const { link, person } = await openDoor(token, now)
  const passwordHash = await hashPassword(newPassword)
  const epoch = await inEntry(
    grant,
    {
      now,
      action: 'password set by link',
      subject: 'person',
      subjectId: person.id,
      columns: ['password_hash', 'session_epoch'],
    },
    async entry => {
      if (!(await spendLink(entry.tx, link.id, now))) throw new Failure('rule', { rule: 'link-used' })
      return writePasswordByLink(grant, entry, person.id, passwordHash)
    },
  )
  await noteLetIn(person.id, 'link', { address, now })
  return { personId: person.id, epoch }
}

async function openDoor(token: string, now: Date) {
  const grant = demand(systemActor('one-time link'), 'system.run')
  const tokenHash = tokenHashOf(token)
  const link: Link | undefined = tokenHash === undefined ? undefined : await findLink(grant, tokenHash)
  if (link === undefined || link.subject.purpose === 'ask' || link.subject.purpose === 'leg')
    throw new Failure('not-found')
  const standing = linkStanding(link, now)
  if (standing !== 'open') throw new Failure('rule', { rule: `link-${standing.replace(' ', '-')}` })
  const person = await findForLink(grant, { id: link.subject.personId })
  if (person === undefined) throw new Failure('rule', { rule: 'link-taken-back' })
  return { link, person }
}
