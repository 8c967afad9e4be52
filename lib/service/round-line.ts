/**
 * One line of the round: what can be said of an animal with a tap, and the places it could go to first.
 * Promise: places are those that fit and are free at once for the stage it is ready for; the question "still there?"
 * comes from the law of its stage. Internal to lib/service: no rows of its own.
 */
import type { RoundLine } from '#lib/db/round-entry.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import { freePlaces } from '#lib/domain/free-place.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { PlannedStage, ResidentState } from '#lib/domain/network-state.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import { residentEstimate } from '#lib/forecast/learned-estimate.ts'
import type { Tonight } from './network.ts'
import { askedSince } from './still-there.ts'

const PLACES_SHOWN = 3

export type LineOfRound = Omit<RoundLine, 'casualtyId'> & {
  readonly stageNo: number | null
  readonly stage: CareStage | null
  readonly next: { readonly no: number; readonly stage: CareStage } | null
  /** It is longer in its stage than 19 in 20: is it still there? */
  readonly isAsked: boolean
  readonly best: readonly { readonly id: number; readonly name: string }[]
}

/** No rows: the line of an animal at a centre. */
export function lineOf(
  tonight: Tonight,
  resident: ResidentState,
  { casualtyId: _id, ...row }: RoundLine,
  now: Date,
): LineOfRound {
  const { began, ready, stages } = resident
  const planned = stages.find(({ no }) => no === began?.no) ?? stages[0]
  const next = planned === undefined ? undefined : stages.find(({ no }) => no > planned.no)
  const wanted = ready !== null && ready.no === planned?.no ? (next ?? planned) : planned
  const { zone } = tonight.state
  const asked =
    planned === undefined || began === null
      ? undefined
      : askedSince(
          residentEstimate(tonight.trade, resident, planned, zone),
          dayOfInstant(began.at, zone),
          tonight.today,
        )
  return {
    ...row,
    stageNo: began?.no ?? null,
    stage: planned?.stage ?? null,
    next: next === undefined ? null : { no: next.no, stage: next.stage },
    isAsked: asked !== undefined,
    best: wanted === undefined ? [] : bestPlaces(tonight, resident, wanted, now),
  }
}

function bestPlaces(
  { state, trade }: Tonight,
  resident: ResidentState,
  planned: PlannedStage,
  now: Date,
): LineOfRound['best'] {
  const { centreId, enclosureId, id } = resident
  if (centreId === null) return []
  const claims = state.claims.filter(
    claim => claim.casualtyId !== id && (claim.endsAt === null || claim.endsAt > now),
  )
  const free = freePlaces({ ...state, claims }, centreId, plannedNeed(resident, planned, trade), now)
  const ids = [...new Set(free.map(one => one.enclosureId))].filter(one => one !== enclosureId)
  return ids.slice(0, PLACES_SHOWN).map(one => ({
    id: one,
    name: state.enclosures.find(enclosure => enclosure.id === one)?.name ?? '',
  }))
}
