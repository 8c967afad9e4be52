/**
 * Facts about where an animal is and how it ended: arrived, moved, gone, and what was wrong about that.
 * Promise: whoever may record gets it saved, whatever rule it breaks; the answer names the promises that gave way.
 * A correction supersedes the newest version of what it corrects.
 */
import { type Actor, systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type Fact, recordFacts } from '#lib/db/keeping.ts'
import { recordAgainst } from '#lib/db/release.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import { outcomeOf } from '#lib/domain/outcome.ts'
import { parse, parseAt } from '#lib/domain/parse.ts'
import { arrivedInput, idInput, movedInput, outcomeInput } from '#lib/domain/record.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { barSentence } from '#lib/words/release.ts'
import { type Along, centreOf, momentOf, type Recorded, record } from './about-casualty.ts'
import { barsOf } from './release-bars.ts'

const COLUMNS = ['since', 'keeper', 'centre_id', 'enclosure_id', 'place_no']

/** It came to a centre, into an enclosure or into the building. */
export async function recordArrived(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const { since, earliest, latest, supersedes, ...at } = parseAt(arrivedInput, await momentOf(now), input)
  return save(
    actor,
    { casualtyId, since, earliest, latest, supersedes, keeper: 'centre', ...at },
    { action: 'arrived', toCentreId: at.centreId, now },
  )
}

/** It is somewhere else now: another enclosure or centre, a practice, a driver. */
export async function recordMoved(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
  along: Along = {},
): Promise<Recorded<number>> {
  const said = parseAt(movedInput, await momentOf(now), input)
  const { since, earliest, latest, supersedes, enclosureId } = said
  const centreId = enclosureId === undefined ? said.centreId : await centreOf(enclosureId)
  const common = { casualtyId, since, earliest, latest, supersedes }
  const { placeNo, overrideReason } = said
  const facts = {
    centre: { ...common, keeper: 'centre', centreId, enclosureId, placeNo, overrideReason },
    practice: { ...common, keeper: 'practice', practiceId: said.practiceId ?? 0 },
    driver: { ...common, keeper: 'driver', driverId: said.driverId ?? 0 },
    finder: { ...common, keeper: 'finder' },
  } as const satisfies Record<string, Fact>
  const toCentreId = said.to === 'centre' ? centreId : undefined
  return save(actor, facts[said.to], { action: 'moved', toCentreId, now, along })
}

/** How the case ended, from two questions; an animal that is still with us has no outcome. */
export async function recordOutcome(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
  along: Along = {},
): Promise<Recorded<number>> {
  const { alive, whereNow, since, earliest, latest, supersedes } = parse(
    outcomeInput(await momentOf(now)),
    input,
  )
  const found = outcomeOf(alive, whereNow)
  if (found.kind !== 'ended') {
    const rule = found.kind === 'in care' ? 'still-in-care' : 'no-such-outcome'
    throw new Failure('invalid', { field: 'whereNow', rule, problems: [{ field: 'whereNow', reason: rule }] })
  }
  const fact: Fact = {
    casualtyId,
    since,
    earliest,
    latest,
    supersedes,
    keeper: 'nobody',
    outcome: found.outcome,
  }
  const against = found.outcome === 'released' ? await againstRelease(casualtyId, since) : []
  return record(
    actor,
    { permission: 'outcome.record', casualtyId, action: 'outcome', columns: ['since', 'outcome'], ...along },
    now,
    async entry => {
      const keepingId = (await recordFacts(entry, [fact], now))[0] ?? 0
      await recordAgainst(entry, keepingId, against)
      return keepingId
    },
  )
}

/** What stands against a release that happened: kept beside the fact, which it does not hinder. */
async function againstRelease(casualtyId: number, at: Date) {
  const system = systemActor('what stood against a release')
  const { zone } = await momentOf(at)
  const { bars } = await barsOf(demand(system, 'casualty.read'), casualtyId, dayOfInstant(at, zone))
  return bars.map(bar => ({ rule: bar.rule, what: barSentence(bar) }))
}

/** Takes back a fact that was wrong: the state before it returns. Promises that it broke do not. */
export async function recordUndone(
  actor: Actor,
  casualtyId: number,
  keepingId: unknown,
  now: Date,
  along: Along = {},
): Promise<Recorded<number>> {
  const supersedes = parse(idInput, keepingId)
  return record(
    actor,
    {
      permission: 'casualty.record',
      casualtyId,
      action: 'fact taken back',
      columns: ['is_void'],
      ...along,
    },
    now,
    async entry => (await recordFacts(entry, [{ casualtyId, supersedes, isVoid: true }], now))[0] ?? 0,
  )
}

type Saving = {
  readonly action: string
  readonly toCentreId: number | undefined
  readonly now: Date
  readonly along?: Along
}

function save(
  actor: Actor,
  fact: Fact,
  { action, toCentreId, now, along }: Saving,
): Promise<Recorded<number>> {
  const reason = fact.keeper === 'centre' ? fact.overrideReason : undefined
  return record(
    actor,
    {
      permission: 'casualty.record',
      casualtyId: fact.casualtyId,
      action,
      columns: COLUMNS,
      reason,
      toCentreId,
      ...along,
    },
    now,
    async entry => (await recordFacts(entry, [fact], now))[0] ?? 0,
  )
}
