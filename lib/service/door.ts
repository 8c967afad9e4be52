/**
 * Animals that came to a centre without an option being taken: at the door, or after a call that was answered by word.
 * Promise: the same admission as an option's, in one entry: arrival, casualties with plan and checks, in the finder's
 * keeping since they were found. Nothing is kept for them; where they went is recorded next.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import { type Admitted, createAdmission } from '#lib/db/admission.ts'
import { type EntryTx, inEntry } from '#lib/db/entry.ts'
import { callFacts } from '#lib/domain/call-facts.ts'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { parse } from '#lib/domain/parse.ts'
import { idInput } from '#lib/domain/record.ts'
import { monthOf } from '#lib/domain/season.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { Random } from '#lib/kernel/random.ts'
import { animalsOf, type CallAnimals } from '#lib/plan/newcomers.ts'
import { momentOf } from './about-casualty.ts'
import { admissionOf, newReferences, type StopExpected } from './admission.ts'
import { readTrade } from './network.ts'

const comingIn = z.strictObject({
  centreId: idInput,
  /** The call that told of them, where there was one. */
  callId: idInput.nullable().default(null),
  foundAt: z.date(),
  facts: callFacts,
})

/** Admits them and returns the casualties' numbers. Failure 'rule' while animal or reason is not known. */
export async function recordCameIn(
  actor: Actor,
  input: unknown,
  now: Date,
  random: Random = Math.random,
): Promise<readonly number[]> {
  const { centreId, callId, foundAt, facts } = parse(comingIn, input)
  const grant = demand(actor, 'casualty.record', { centreIds: [centreId] })
  const made = await admitAt(grant, { centreId, callId, foundAt, facts }, { now, random })
  return made.casualtyIds
}

export type CameIn = z.infer<typeof comingIn>

/** What follows the admission in the same entry. */
export type After = (entry: EntryTx, made: Admitted) => Promise<void>

/** The admission at a centre, and whatever follows it, in one entry. */
export async function admitAt(
  grant: Grant<'casualty.record'>,
  { centreId, callId, foundAt, facts }: CameIn,
  { now, random, after }: { readonly now: Date; readonly random: Random; readonly after?: After },
): Promise<Admitted> {
  const [trade, { zone }] = await Promise.all([readTrade(), momentOf(now)])
  const today = dayOfInstant(now, zone)
  const animals = animalsOf(facts, trade, monthOf(today))
  if (animals === undefined) throw new Failure('rule', { rule: 'option-gone' })
  const about = {
    now,
    action: 'came in',
    subject: 'arrival',
    subjectId: ({ arrivalId }: { readonly arrivalId: number }) => arrivalId,
  }
  return inEntry(grant, about, async entry => {
    const references = await newReferences(grant, entry, { count: facts.count, today, random })
    const admission = admissionOf(grant, {
      callId,
      // A finder who left a number left it with the call.
      facts: { ...facts, finderName: '', finderPhone: '' },
      animals,
      stops: stopsExpected(animals, centreId, today),
      today,
      finderDays: 0,
      references,
      at: foundAt,
    })
    const made = await createAdmission(entry.tx, entry.entryId, admission)
    await after?.(entry, made)
    return made
  })
}

/** Each stage after the usual time of those before it; only the first is known to be spent here. */
function stopsExpected({ plan }: CallAnimals, centreId: number, today: DayNumber): StopExpected[] {
  let from = today
  return plan.stages.map(({ estimate: { ready } }, nth) => {
    const stop = { centreId: nth === 0 ? centreId : null, from: Math.round(from) }
    from += ready.kind === 'length' ? ready.length.medianDays : ready.minDays
    return stop
  })
}
