/**
 * The way ahead of every animal in care, from its own copy of the plan and the pools of the network.
 * Promise: a stage is spent where the plan says, else where the animal is, else at the nearest centre that has such
 * housing; where no centre has, the stage has no pool. An animal without a plan is named, never guessed.
 */
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import type { PlaceNeed } from '#lib/domain/need.ts'
import type { NetworkState, PlannedStage, ResidentState } from '#lib/domain/network-state.ts'
import { roadBetweenCentres } from '#lib/domain/place.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import { speciesOf, type Trade } from '#lib/domain/trade.ts'
import { residentEstimate } from './learned-estimate.ts'
import type { Itinerary, PathStage } from './model.ts'
import { findServing, type Pools } from './pools.ts'

const MS_PER_DAY = 86_400_000

export type PlacedStage = { readonly stage: PathStage; readonly centreId: number | null }

/**
 * A stage's place beginning the search at `homeId`: that centre, else the nearest other one that takes the group and
 * is not shut to it. `centreId` is null where nobody has such housing. `size` and `stock` as the pool counts them.
 */
export function placeStage(
  state: NetworkState,
  pools: Pools,
  homeId: number | null,
  group: string,
  need: PlaceNeed,
  estimate: PathStage['estimate'],
): PlacedStage {
  for (const centreId of centresFrom(state, homeId, group)) {
    const serving = findServing(pools, centreId, need)
    if (serving !== undefined) return { stage: { estimate, ...serving }, centreId }
  }
  return {
    stage: { estimate, poolId: null, need: unserved(need) },
    centreId: null,
  }
}

/** The itinerary of a resident; undefined while nobody has given it a plan. */
export function itineraryOf(
  resident: ResidentState,
  state: NetworkState,
  trade: Trade,
  pools: Pools,
  today: DayNumber,
  asAt: Date,
): Itinerary | undefined {
  if (resident.stages.length === 0) return undefined
  const beganNo = resident.began?.no ?? resident.stages[0]!.no
  const firstStage = Math.max(
    0,
    resident.stages.findIndex(stage => stage.no === beganNo),
  )
  const expected = state.claims.find(claim => claim.kind === 'hold' && claim.casualtyId === resident.id)
  const isReady = resident.ready?.no === beganNo
  return {
    casualtyId: String(resident.id),
    count: 1,
    stages: pathOf(resident, firstStage, isReady, expectedCentre(resident, state, expected?.enclosureId), {
      state,
      trade,
      pools,
    }),
    firstStage,
    enteredStageOn: enteredOn(resident, state.zone, today, expected?.expectedAt ?? null),
    isReady,
    unseenDays: unseenDays(resident, state, asAt),
  }
}

type Known = { readonly state: NetworkState; readonly trade: Trade; readonly pools: Pools }

function pathOf(
  resident: ResidentState,
  firstStage: number,
  isReady: boolean,
  homeId: number | null,
  { state, trade, pools }: Known,
): PathStage[] {
  const group = speciesOf(trade, resident.species).group_slug
  let here = homeId
  return resident.stages.map((planned, index) => {
    const need = plannedNeed(resident, planned, trade)
    const estimate = residentEstimate(trade, resident, planned, state.zone)
    if (index === firstStage && !isReady) {
      const where = currentPool(resident, planned, need, state, pools)
      if (where !== undefined) return { estimate, ...where }
    }
    const placed = placeStage(state, pools, planned.centreId ?? here, group, need, estimate)
    if (index >= firstStage) here = placed.centreId ?? here
    return placed.stage
  })
}

/** Where it lives now counts as its place when that housing serves its stage. */
function currentPool(
  resident: ResidentState,
  planned: PlannedStage,
  need: PlaceNeed,
  state: NetworkState,
  pools: Pools,
) {
  const enclosure = state.enclosures.find(one => one.id === resident.enclosureId)
  if (enclosure === undefined) return undefined
  if (![planned.housing, ...planned.housingAlso].includes(enclosure.housing)) return undefined
  return findServing(pools, enclosure.centreId, { ...need, housing: [enclosure.housing] })
}

function expectedCentre(
  resident: ResidentState,
  state: NetworkState,
  heldEnclosureId: number | undefined,
): number | null {
  if (resident.centreId !== null) return resident.centreId
  const held = state.enclosures.find(one => one.id === heldEnclosureId)
  return held?.centreId ?? resident.stages[0]?.centreId ?? null
}

function enteredOn(
  resident: ResidentState,
  zone: string,
  today: DayNumber,
  expectedAt: Date | null,
): DayNumber {
  if (resident.began !== null) return Math.min(today, dayOfInstant(resident.began.at, zone))
  if (resident.keeper === 'centre') return Math.min(today, dayOfInstant(resident.since, zone))
  return expectedAt === null ? today : Math.max(today, dayOfInstant(expectedAt, zone))
}

/** Whole days since the centre's animals were last counted; 0 for one that is not at a centre. */
function unseenDays(resident: ResidentState, state: NetworkState, asAt: Date): number {
  const countedAt = state.centres.find(centre => centre.id === resident.centreId)?.countedAt ?? null
  if (resident.keeper !== 'centre' || countedAt === null) return 0
  // What was entered since the count is fresher than the count.
  const seenAt = Math.max(countedAt.getTime(), resident.since.getTime(), resident.began?.at.getTime() ?? 0)
  return Math.max(0, Math.floor((asAt.getTime() - seenAt) / MS_PER_DAY))
}

/** Centres to try: home first, then the others that take the group and may receive it, nearest first. */
function centresFrom(state: NetworkState, homeId: number | null, group: string): number[] {
  const home = state.centres.find(centre => centre.id === homeId)
  const others = state.centres
    .filter(
      centre =>
        centre.id !== homeId && centre.takes.includes(group) && centre.stop?.siteState !== 'no-movement',
    )
    .map(centre => ({ id: centre.id, km: home ? roadBetweenCentres(home, centre, state.travel).km : 0 }))
    .sort((a, b) => a.km - b.km || a.id - b.id)
    .map(({ id }) => id)
  return home === undefined ? others : [home.id, ...others]
}

function unserved(need: PlaceNeed): PathStage['need'] {
  return { housing: need.housing[0]!, size: need.sizeRank, company: need.companyKey, stock: 1 }
}
