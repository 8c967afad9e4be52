/**
 * Some of several that are counted together, when nobody can say which.
 * Promise: the count is right at once: six with one death are five in care. The lowest that nobody can tell from
 * the others stands for it, and its record says so; taking the fact back and recording another corrects it.
 */

import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { lockBatchBeside, lockOneOfBatch } from '#lib/db/batch.ts'
import { recordFacts } from '#lib/db/keeping.ts'
import { recordWords } from '#lib/db/stage.ts'
import { type Beside, chooseSome, someInput } from '#lib/domain/group.ts'
import { outcomeOf } from '#lib/domain/outcome.ts'
import { parse, parseAt } from '#lib/domain/parse.ts'
import { arrivedInput, outcomeInput } from '#lib/domain/record.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { NOT_TOLD_APART } from '#lib/words/casualty-change.ts'
import { centreOf, momentOf, type Recorded, record } from './about-casualty.ts'

export type OneOfBatch = {
  /** Who stands for it. */
  readonly id: number
  /** The animal it was said of; where that stands for it, another that was beside it. */
  readonly left: { readonly casualtyId: string; readonly reference: string } | undefined
}

/** Records how one of the batch ended. */
export async function recordOneOfBatch(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<OneOfBatch>> {
  const { alive, whereNow, since, earliest, latest } = parseAt(outcomeInput, await momentOf(now), input)
  const found = outcomeOf(alive, whereNow)
  if (found.kind !== 'ended') throw new Failure('rule', { rule: 'no-such-outcome', field: 'whereNow' })
  const about = {
    permission: 'outcome.record',
    casualtyId,
    action: 'outcome of one of a batch',
    columns: ['since', 'outcome'],
  } as const
  return record(actor, about, now, async entry => {
    const locked = await lockOneOfBatch(entry, casualtyId)
    if (locked === undefined) throw new Failure('rule', { rule: 'not-one-of-several' })
    const { one, others } = locked
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
      earliest,
      latest,
      words: NOT_TOLD_APART,
      writtenBy: actor.personId,
    })
    const next = one.id === casualtyId ? others[0] : undefined
    return { id: one.id, left: next && { casualtyId: String(next.id), reference: next.reference } }
  })
}

/** Moves so many of the batch that are where this one is, or those in the places named; returns who stands for them. */
export async function moveSomeOfBatch(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<readonly number[]>> {
  const moment = await momentOf(now)
  const { count, places, since, earliest, latest, enclosureId, ...said } = parse(
    z.intersection(someInput, arrivedInput(moment)),
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
    const some = places.length > 0 ? inPlaces(members, places) : chooseSome(members, count ?? 0)
    if (some === undefined) throw new Failure('rule', { rule: 'not-so-many-beside', field: 'count' })
    const moved = some.map(({ id }) => id)
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

function inPlaces(members: readonly Beside[], places: readonly number[]): readonly Beside[] | undefined {
  const found = members.filter(({ placeNo }) => placeNo !== null && places.includes(placeNo))
  return found.length === new Set(places).size ? found : undefined
}
