/**
 * A box at the door: what came, how many, what is wrong, and it is in the building.
 * Promise: one entry with arrival, animals, batch and where they are, or nothing. Words that name nothing stay words; an
 * animal that nobody can name comes in as what it looks like, a reason that nobody knows as not known.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { type CameHere, findCameHere } from '#lib/db/came-here.ts'
import { recordFacts } from '#lib/db/keeping.ts'
import { getWalkedCentre, type WalkedCentre } from '#lib/db/round.ts'
import { recordStageFact, recordWords } from '#lib/db/stage.ts'
import { type CallFacts, emptyCallFacts } from '#lib/domain/call-facts.ts'
import { NOTES_MAX } from '#lib/domain/call-limits.ts'
import { readSheet, type SheetInput, speciesOffered } from '#lib/domain/call-sheet.ts'
import { type Caution, cautionsFor } from '#lib/domain/caution.ts'
import { ANY_REASON } from '#lib/domain/condition.ts'
import type { SpeciesKnowledge } from '#lib/domain/knowledge.ts'
import { notifiableState } from '#lib/domain/notifiable.ts'
import { parse } from '#lib/domain/parse.ts'
import { idInput } from '#lib/domain/record.ts'
import { standIns } from '#lib/domain/species.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { Random } from '#lib/kernel/random.ts'
import { admitAt } from './door.ts'
import { readTrade } from './network.ts'

export type Door = {
  readonly centre: WalkedCentre
  readonly animalNames: readonly string[]
  readonly standIns: readonly SpeciesKnowledge[]
  /** What came a moment ago, with what to mind; undefined where nothing is asked for. */
  readonly came:
    | (CameHere & { readonly kind: SpeciesKnowledge | undefined; readonly cautions: readonly Caution[] })
    | undefined
}

/** The form of a centre's door, and an arrival that was just recorded there. */
export async function readDoor(actor: Actor, centreId: number, arrivalId: number | undefined): Promise<Door> {
  const grant = demand(actor, 'casualty.record', { centreIds: [centreId] })
  const [trade, centre, came] = await Promise.all([
    readTrade(),
    getWalkedCentre(demand(actor, 'round.read', { centreIds: [centreId] }), centreId),
    arrivalId === undefined ? undefined : findCameHere(grant, arrivalId, centreId),
  ])
  return {
    centre,
    animalNames: [...new Set(trade.species.flatMap(one => [one.common_name, ...one.also_called]))],
    standIns: standIns(trade.species),
    came: came === undefined ? undefined : withCautions(came, trade),
  }
}

/** Demands only: whether somebody may take a box in at all; the door is chosen next. */
export async function maySeeDoors(actor: Actor): Promise<void> {
  demand(actor, 'casualty.record')
}

function withCautions(came: CameHere, trade: Trade): NonNullable<Door['came']> {
  const kind = trade.speciesBySlug.get(came.species)
  const conditions = came.conditions.flatMap(slug => trade.conditionBySlug.get(slug) ?? [])
  const notifiable = notifiableState(kind, conditions, {})
  const asked = { species: kind, conditions, answers: {}, dangers: [], age: came.age, notifiable }
  return { ...came, kind, cautions: cautionsFor(asked, 'card') }
}

const atTheDoor = z.object({
  centreId: idInput,
  enclosureId: z.union([z.literal('').transform(() => undefined), idInput]).optional(),
  note: z.string().trim().max(NOTES_MAX).default(''),
})

/** Takes them in and returns the arrival's number. Failure 'invalid' while nobody says what it is or looks like. */
export async function recordAtTheDoor(
  actor: Actor,
  input: SheetInput,
  now: Date,
  random: Random = Math.random,
): Promise<number> {
  const { centreId, enclosureId, note } = parse(atTheDoor, input)
  const grant = demand(actor, 'casualty.record', { centreIds: [centreId] })
  const facts = factsAtTheDoor(input, await readTrade(), now)
  const made = await admitAt(
    grant,
    { centreId, callId: null, foundAt: now, facts },
    {
      now,
      random,
      after: async (entry, { casualtyIds }) => {
        const here = { since: now, keeper: 'centre', centreId, enclosureId } as const
        await recordFacts(
          entry,
          casualtyIds.map(casualtyId => ({ casualtyId, ...here })),
          now,
        )
        for (const casualtyId of casualtyIds) {
          await recordStageFact(entry, { casualtyId, stageNo: 1, kind: 'began', at: now }, now)
          if (note === '') continue
          await recordWords(entry, { casualtyId, at: now, words: note, writtenBy: actor.personId })
        }
      },
    },
  )
  return made.arrivalId
}

function factsAtTheDoor(input: SheetInput, trade: Trade, now: Date): CallFacts {
  // The choice was made for the very words beside it.
  const animalTyped = String(input['animalTyped'] ?? '').trim()
  const facts = readSheet(input, { ...emptyCallFacts(), animalTyped }, trade, now)
  if (facts.species === null) {
    const offered = speciesOffered(facts, trade).map(one => ({ value: one.slug, text: one.common_name }))
    throw new Failure('invalid', { rule: 'which-animal', field: 'species', data: { offered } })
  }
  const conditions = facts.conditions.length > 0 ? facts.conditions : [{ slug: ANY_REASON, severity: null }]
  return { ...facts, conditions, isBrood: facts.count > 1 }
}
