/**
 * The companions that a lone young animal could be put with, from the network of this moment.
 * Promise: rooms are judged by the rules that judge every move; nothing is moved here. Internal to lib/service.
 */

import type { Grant } from '#lib/authz/demand.ts'
import { listSuspects } from '#lib/db/companion.ts'
import { type Companion, companionsOf, isLone, type Young } from '#lib/domain/companion.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import type { ResidentState } from '#lib/domain/network-state.ts'
import { roadBetweenCentres } from '#lib/domain/place.ts'
import { placeChoices } from '#lib/domain/place-choice.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import type { Tonight } from './network.ts'

const SHOWN = 5

export type CompanionSearch = {
  readonly found: readonly (Companion & { readonly centre: string; readonly speciesName: string })[]
  /** It is kept apart itself, so nobody can join it yet. */
  readonly isApart: boolean
}

/** Who could keep it company; undefined where it is not alone, or nothing is at risk. */
export async function findCompanions(
  grant: Grant<'casualty.read'>,
  tonight: Tonight,
  casualtyId: number,
  now: Date,
): Promise<CompanionSearch | undefined> {
  const { state, trade } = tonight
  const resident = state.residents.find(({ id }) => id === casualtyId)
  if (resident === undefined || resident.centreId === null || resident.age !== 'young') return undefined
  const same = state.residents.filter(one => one.company === resident.company && one.age === 'young')
  const suspects = new Set(
    await listSuspects(
      grant,
      same.map(({ id }) => id),
    ),
  )
  const young = same.flatMap(one => youngOf(tonight, one, suspects))
  const chick = young.find(({ id }) => id === casualtyId)
  if (chick === undefined || !isLone(chick, young)) return undefined
  const here = state.centres.find(({ id }) => id === chick.centreId)
  const found = companionsOf(chick, young, {
    kmTo: centreId => {
      const there = state.centres.find(({ id }) => id === centreId)
      return here === undefined || there === undefined || here.id === there.id
        ? 0
        : roadBetweenCentres(here, there, state.travel).km
    },
    hasRoomFor: (animal, beside) => hasRoom(tonight, animal, beside, now),
  })
  return {
    isApart: chick.isApart,
    found: found.slice(0, SHOWN).map(one => ({
      ...one,
      centre: state.centres.find(({ id }) => id === one.animal.centreId)?.name ?? '',
      speciesName: speciesOf(trade, one.animal.species).common_name,
    })),
  }
}

function youngOf(
  { state, trade, today }: Tonight,
  one: ResidentState,
  suspects: ReadonlySet<number>,
): Young[] {
  if (one.centreId === null) return []
  const stage = stageNow(one)
  return [
    {
      id: one.id,
      reference: one.reference,
      species: one.species,
      company: one.company,
      age: one.age,
      isAlone: one.isAlone,
      isImprintRisk: speciesOf(trade, one.species).is_imprint_risk,
      centreId: one.centreId,
      enclosureId: one.enclosureId,
      daysInCare: today - dayOfInstant(one.since, state.zone),
      isApart: suspects.has(one.id) || stage?.stage === 'quarantine' || stage?.housing === 'isolation',
    },
  ]
}

function stageNow({ stages, began }: ResidentState) {
  return stages.find(({ no }) => no === began?.no) ?? stages[0]
}

/** Whether the enclosure that one is in has a place for the other now. */
function hasRoom({ state, trade }: Tonight, animal: Young, beside: Young, now: Date): boolean {
  const resident = state.residents.find(({ id }) => id === animal.id)
  const stage = resident === undefined ? undefined : stageNow(resident)
  if (resident === undefined || stage === undefined || beside.enclosureId === null) return false
  const need = plannedNeed(resident, stage, trade)
  return placeChoices(state, beside.centreId, need, { at: now, casualtyId: animal.id }).some(
    choice => choice.enclosureId === beside.enclosureId && choice.state === 'free',
  )
}
