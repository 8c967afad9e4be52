/**
 * "Not this one, because": a proposed move is set aside with a reason and until when, and taken up again.
 * Promise: one row and one line of the audit a decision; it comes back by itself on its day, or once the animal is in
 * another place, stage or plan. Whoever may arrange moves may set one aside.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inAudited } from '#lib/db/entry.ts'
import { insertAside, listMovesAside, type MoveAside, takeUpAside } from '#lib/db/move-aside.ts'
import { dateOfDay, dayOfInstant } from '#lib/domain/day.ts'
import { asideInput } from '#lib/domain/move-aside.ts'
import { parse } from '#lib/domain/parse.ts'
import { idInput } from '#lib/domain/record.ts'
import { momentOf } from './about-casualty.ts'

export type { MoveAside }

/** Moves that are set aside now, the newest first. */
export async function readMovesAside(actor: Actor, now: Date): Promise<MoveAside[]> {
  const grant = demand(actor, 'move.read')
  return listMovesAside(grant, await todayOf(now))
}

/** Sets a proposed move aside; returns its number. */
export async function setMoveAside(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'move.arrange')
  const { zone } = await momentOf(now)
  const today = dayOfInstant(now, zone)
  const { words, untilOn, ...said } = parse(asideInput(today), input)
  return inAudited(
    grant,
    {
      now,
      action: 'proposed move set aside',
      subject: 'casualty',
      subjectId: said.casualtyId,
      columns: ['reason', 'words', 'until_on'],
    },
    ({ tx }) =>
      insertAside(
        tx,
        { ...said, words: words ?? null, untilOn: untilOn ?? null, setBy: grant.actor.personId },
        dateOfDay(today),
        now,
      ),
  )
}

/** Takes a move up again that was set aside: it is proposed as before. */
export async function takeMoveUp(actor: Actor, asideId: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'move.arrange')
  const id = parse(idInput, asideId)
  const today = await todayOf(now)
  await inAudited(
    grant,
    {
      now,
      action: 'proposed move taken up again',
      subject: 'casualty',
      subjectId: (casualtyId: number) => casualtyId,
      columns: ['taken_up_at'],
    },
    ({ tx }) => takeUpAside(tx, id, grant.actor.personId, today, now),
  )
}

async function todayOf(now: Date): Promise<string> {
  const { zone } = await momentOf(now)
  return dateOfDay(dayOfInstant(now, zone))
}
