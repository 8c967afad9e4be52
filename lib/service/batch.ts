/**
 * Some of several that are counted together, when nobody can say which.
 * Promise: the count is right at once: six with one death are five in care. The one with the highest number stands for
 * it, and its record says that it was not told apart; taking the fact back and recording another corrects it.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { lockBatchBeside } from '#lib/db/batch.ts'
import { recordFacts } from '#lib/db/keeping.ts'
import { recordWords } from '#lib/db/stage.ts'
import { outcomeOf } from '#lib/domain/outcome.ts'
import { parse } from '#lib/domain/parse.ts'
import { arrivedInput, outcomeInput } from '#lib/domain/record.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { NOT_TOLD_APART } from '#lib/words/casualty-change.ts'
import { centreOf, momentOf, type Recorded, record } from './about-casualty.ts'

const movingSome = z.object({ count: z.coerce.number().int().min(1) })

/** Records how one of the batch ended; returns the number of the animal that stands for it. */
export async function recordOneOfBatch(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const { alive, whereNow, since, earliest, latest } = parse(outcomeInput(await momentOf(now)), input)
  const found = outcomeOf(alive, whereNow)
  if (found.kind !== 'ended') throw new Failure('rule', { rule: 'no-such-outcome', field: 'whereNow' })
  const about = {
    permission: 'outcome.record',
    casualtyId,
    action: 'outcome of one of a batch',
    columns: ['since', 'outcome'],
  } as const
  return record(actor, about, now, async entry => {
    const members = await lockBatchBeside(entry, casualtyId)
    const one = members.at(-1)
    if (one === undefined || members.length < 2) throw new Failure('rule', { rule: 'not-one-of-several' })
    const fact = {
      casualtyId: one.id,
      since,
      earliest,
      latest,
      keeper: 'nobody',
      outcome: found.outcome,
    } as const
    await recordFacts(entry, [fact], now)
    await recordWords(entry, {
      casualtyId: one.id,
      at: since,
      words: NOT_TOLD_APART,
      writtenBy: actor.personId,
    })
    return one.id
  })
}

/** Moves so many of the batch that are where this one is; returns the animals that stand for them. */
export async function moveSomeOfBatch(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<readonly number[]>> {
  const moment = await momentOf(now)
  const { count, since, earliest, latest, enclosureId, ...said } = parse(
    z.intersection(movingSome, arrivedInput(moment)),
    input,
  )
  const centreId = enclosureId === undefined ? said.centreId : await centreOf(enclosureId)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: 'some of a batch moved',
    columns: ['since', 'centre_id', 'enclosure_id'],
    toCentreId: centreId,
  } as const
  return record(actor, about, now, async entry => {
    const members = await lockBatchBeside(entry, casualtyId)
    if (members.length < 2) throw new Failure('rule', { rule: 'not-one-of-several' })
    if (count > members.length) throw new Failure('rule', { rule: 'not-so-many-beside', field: 'count' })
    const moved = members.slice(-count).map(({ id }) => id)
    const { overrideReason } = said
    const to = { since, earliest, latest, keeper: 'centre', centreId, enclosureId, overrideReason } as const
    await recordFacts(
      entry,
      moved.map(id => ({ casualtyId: id, ...to })),
      now,
    )
    return moved
  })
}
