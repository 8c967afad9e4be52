/**
 * What an animal's card sends, made ready for the services that record it.
 * Promise: an arrival begins the first stage; a revision holds only what was changed, so what was left as it stood keeps its source; a weighing that is
 * due is recorded with its weight or not at all.
 */
import { z } from 'zod'
import { type Actor, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { getReach } from '#lib/db/keeping.ts'
import { findFirstStageAhead } from '#lib/db/stage.ts'
import { parse } from '#lib/domain/parse.ts'
import { decimalText } from '#lib/domain/text.ts'
import { Failure, type Problem } from '#lib/kernel/failure.ts'
import type { Recorded } from './about-casualty.ts'
import { recordArrived } from './record.ts'
import { recordCheck, recordStageMoved, reviseExpectation } from './record-stay.ts'

const row = z.object({
  stageNo: z.string(),
  medianDays: decimalText,
  p90Days: decimalText,
  /** As it stood when the form was drawn. */
  wasMedian: decimalText,
  wasP90: decimalText,
})
const revising = z.object({ because: z.string(), stages: z.array(row).default([]) })

/** Revises the lengths that were changed. Failure 'rule' when none was. */
export async function reviseChanged(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const { because, stages } = parse(revising, input)
  const problems = stages.flatMap(({ medianDays, p90Days }, at): Problem[] =>
    p90Days > medianDays ? [] : [{ field: `stages.${at}.p90Days`, reason: 'p90-not-above-median' }],
  )
  const [first] = problems
  if (first !== undefined) throw new Failure('invalid', { problems, field: first.field })
  const changed = stages.filter(one => one.medianDays !== one.wasMedian || one.p90Days !== one.wasP90)
  if (changed.length === 0)
    throw new Failure('rule', { rule: 'nothing-revised', field: 'stages.0.medianDays' })
  const wanted = changed.map(({ stageNo, medianDays, p90Days }) => ({ stageNo, medianDays, p90Days }))
  return reviseExpectation(actor, casualtyId, { because, stages: wanted }, now)
}

/** It came to a centre. Where nothing of its plan has begun yet, its first stage begins with that. */
export async function recordArrivalOfCard(
  actor: Actor,
  casualtyId: number,
  input: Readonly<Record<string, unknown>>,
  now: Date,
): Promise<void> {
  await recordArrived(actor, casualtyId, input, now)
  const reach = await getReach(demand(systemActor('whose card'), 'system.run'), casualtyId)
  const grant = demand(actor, 'casualty.read', reach)
  const stageNo = await findFirstStageAhead(grant, casualtyId)
  if (stageNo === undefined) return
  const { since: at, earliest, latest } = input
  await recordStageMoved(actor, casualtyId, { stageNo, at: at ?? '', earliest, latest }, now)
}

const checking = z.object({ checkId: z.coerce.number().int().positive(), grams: z.string().optional() })

/** Records a check, with the weight that was typed for it. */
export async function recordCheckOfCard(actor: Actor, input: unknown, now: Date): Promise<void> {
  const { checkId, grams } = parse(checking, input)
  const rest = z.looseObject({}).parse(input)
  await recordCheck(actor, checkId, { ...rest, grams: grams?.trim().replace(',', '.') }, now)
}
