/**
 * The duty line and what is due, read once a page for its head.
 */
import 'server-only'
import { cache } from 'react'
import type { Actor } from '#lib/authz/actor.ts'
import { countDue } from '#lib/service/due.ts'
import { readLineState } from '#lib/service/line.ts'
import { currentNow } from './clock.ts'

/** Who holds the line at this request's instant, or why nobody does. */
export const currentLine = cache(async () => readLineState(await currentNow()))

/** How much is due from somebody now, for the navigation. */
export const currentDueCount = cache(async (actor: Actor): Promise<number> => {
  const [line, now] = await Promise.all([currentLine(), currentNow()])
  return countDue(actor, line, now)
})
