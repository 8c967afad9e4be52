/**
 * The duty line and what is due, read once a page for its head.
 */
import 'server-only'
import { cache } from 'react'
import type { Actor } from '#lib/authz/actor.ts'
import { type DueItem, splitDue } from '#lib/domain/due.ts'
import { readOwed } from '#lib/service/due.ts'
import { readLineState } from '#lib/service/line.ts'
import { currentNow } from './clock.ts'

/** Who holds the line at this request's instant, or why nobody does. */
export const currentLine = cache(async () => readLineState(await currentNow()))

/** What somebody owes at this request's instant, for the count in the navigation and for the page of what is due. */
export const currentOwed = cache(async (actor: Actor): Promise<readonly DueItem[]> => {
  const [line, now] = await Promise.all([currentLine(), currentNow()])
  return readOwed(actor, line, now)
})

/** How much of it is due now. */
export async function currentDueCount(actor: Actor): Promise<number> {
  const [owed, now] = await Promise.all([currentOwed(actor), currentNow()])
  return splitDue(owed, now).due.length
}
