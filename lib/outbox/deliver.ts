/**
 * Delivers mail that is due.
 * Promise: at least once; a fault is tried again after a growing pause, and given up after a day of tries. Never keeps
 * or logs what a mail said.
 */
import 'server-only'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { claimDueMail, type DueMail, markMailFault, markMailSent } from '#lib/db/outbox.ts'

const MAILS_A_BEAT_MAX = 10
const FIRST_PAUSE_SECONDS = 60
const LONGEST_PAUSE_SECONDS = 4 * 3600
/** With these pauses about a day. */
const TRIES_MAX = 13
const FAULT_LENGTH_MAX = 200

export type Letter = Pick<DueMail, 'to' | 'subject' | 'body'>
export type Send = (letter: Letter) => Promise<void>
export type Delivered = { readonly sent: number; readonly failed: number }

/** Sends what is due at an instant, and says how much it was. */
export async function deliverDueMail(send: Send, now: Date): Promise<Delivered> {
  const grant = demand(systemActor('mail'), 'system.run')
  const due = await claimDueMail(grant, now, MAILS_A_BEAT_MAX, tries => pauseAfter(tries, now))
  let sent = 0
  for (const { id, tries, to, subject, body } of due) {
    try {
      await send({ to, subject, body })
      sent += 1
    } catch (thrown) {
      await markMailFault(grant, id, faultOf(thrown), tries >= TRIES_MAX ? now : undefined)
      continue
    }
    await markMailSent(grant, id, now)
  }
  return { sent, failed: due.length - sent }
}

function pauseAfter(tries: number, now: Date): Date {
  const seconds = Math.min(LONGEST_PAUSE_SECONDS, FIRST_PAUSE_SECONDS * 2 ** (tries - 1))
  return new Date(now.getTime() + seconds * 1000)
}

/** The code of a fault, never its text: servers quote addresses in theirs. */
function faultOf(thrown: unknown): string {
  const code = typeof thrown === 'object' && thrown !== null ? Reflect.get(thrown, 'code') : undefined
  const answer =
    typeof thrown === 'object' && thrown !== null ? Reflect.get(thrown, 'responseCode') : undefined
  return (
    [code, answer]
      .filter(part => part !== undefined)
      .join(' ')
      .slice(0, FAULT_LENGTH_MAX) || 'fault'
  )
}
