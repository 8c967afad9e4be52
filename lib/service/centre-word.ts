/**
 * A centre's own word: no more until a day, so many feeding rounds a day.
 * Promise: one tap says it, placement obeys from the next answer on, and it runs out by itself.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { endWord, listWords, writeWord } from '#lib/db/centre-word.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  type CentreWord,
  daysOffered,
  noMoreEnds,
  noMoreForm,
  roundsEnd,
  roundsForm,
  WORD_KINDS,
} from '#lib/domain/centre-word.ts'
import { parse } from '#lib/domain/parse.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { momentOf } from './about-casualty.ts'

/** What a centre says now. */
export async function readWords(actor: Actor, centreId: number, now: Date): Promise<CentreWord[]> {
  return listWords(demand(actor, 'round.read', { centreIds: [centreId] }), centreId, now)
}

/** "No more until Tuesday". */
export async function sayNoMore(actor: Actor, centreId: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'intake.say', { centreIds: [centreId] })
  const { day } = parse(noMoreForm, input)
  const { zone } = await momentOf(now)
  if (!daysOffered(now, zone).includes(day)) throw new Failure('invalid', { rule: 'word-day-gone' })
  const word: CentreWord = { centreId, kind: 'no-more', rounds: null, until: noMoreEnds(day, zone) }
  await inEntry(grant, { now, action: 'takes no more', subject: 'centre', subjectId: centreId }, entry =>
    writeWord(entry, word, now),
  )
}

/** "We can do eight feeding rounds a day". */
export async function sayRounds(actor: Actor, centreId: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'intake.say', { centreIds: [centreId] })
  const { rounds } = parse(roundsForm, input)
  const { zone } = await momentOf(now)
  const word: CentreWord = { centreId, kind: 'feeding-rounds', rounds, until: roundsEnd(now, zone) }
  await inEntry(grant, { now, action: 'feeding rounds', subject: 'centre', subjectId: centreId }, entry =>
    writeWord(entry, word, now),
  )
}

/** Takes it back: the centre takes animals again, or feeds as many as come. */
export async function takeWordBack(actor: Actor, centreId: number, kind: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'intake.say', { centreIds: [centreId] })
  const known = WORD_KINDS.find(one => one === kind)
  if (known === undefined) throw new Failure('not-found')
  await inEntry(grant, { now, action: 'word taken back', subject: 'centre', subjectId: centreId }, entry =>
    endWord(entry, centreId, known, now),
  )
}
