/**
 * What a stay along a path costs, term by term, and which path from a centre costs least.
 * Promise: the terms are those of the shortest-path problem, so the cheapest path is the one with the smallest total.
 * A full place on the day of arrival weighs omega, later days kappa; days in housing that the centre lacks weigh 1.
 */
import type { CostReason, Named } from '#lib/domain/option.ts'
import type { Road } from '#lib/domain/place.ts'
import { type BestPaths, bestPaths } from './best-path.ts'
import type { PlacementQuestion } from './model.ts'
import { barsForGood, isMoveInIsolation } from './rule.ts'
import { inCareTomorrow, moveProbability, type StayTable } from './stay-table.ts'
import type { PricedReason } from './term.ts'

/** Place-days of the days in a stage at a centre, the day of arrival left out. */
export function stageCost(
  { policy }: PlacementQuestion,
  table: StayTable,
  stage: number,
  centreAt: number,
): number {
  const { after, hasHousing } = table.stages[stage]![centreAt]!
  return hasHousing ? policy.kappa * after : after
}

/** P(the animals are moved when they enter a stage, from 1). */
function entryProbability({ animals }: PlacementQuestion, table: StayTable, stage: number): number {
  return moveProbability(animals.count, table.walk[stage]!.reachProbability)
}

/** Place-days of one move: the transfer and its drive. */
function moveCost({ policy }: PlacementQuestion, road: Road, probability: number): number {
  return probability * (policy.transferDays + road.km / policy.kmPerPlaceDay)
}

/** The cheapest way on from every centre; a rule that bars a centre or a move cuts its edges. */
export function cheapestPaths(question: PlacementQuestion, table: StayTable): BestPaths {
  const { animals, centres, between } = question
  const isBarred = centres.map(centre => barsForGood(question, centre) !== null)
  return bestPaths({
    stageCount: animals.stages.length,
    centreCount: centres.length,
    stageCost: (stage, centreAt) => stageCost(question, table, stage, centreAt),
    moveCost: (stage, from, to) => {
      const road = between[centres[from]!.id]?.[centres[to]!.id]
      if (road === undefined || isBarred[to] || isMoveInIsolation(question, stage)) return null
      return moveCost(question, road, entryProbability(question, table, stage))
    },
  })
}

/** The terms of living along a path, without the way to the first centre; order: arrival, stages, moves. */
export function stayReasons(
  question: PlacementQuestion,
  table: StayTable,
  path: readonly number[],
): readonly PricedReason[] {
  return [
    ...path.flatMap((_, stage) => stageReasons(question, table, path, stage)),
    ...path.flatMap((_, stage) => moveReasons(question, table, path, stage)),
  ]
}

function stageReasons(
  question: PlacementQuestion,
  table: StayTable,
  path: readonly number[],
  stage: number,
): PricedReason[] {
  const { policy, animals, centres } = question
  const centre = namedCentre(question, path[stage]!)
  const { onArrival, after, hasHousing } = table.stages[stage]![path[stage]!]!
  const { stage: name, needs } = animals.stages[stage]!
  const inStage: CostReason = {
    kind: stage === 0 ? 'first stage' : 'later stage',
    stage: name,
    housing: (centres[path[stage]!]!.homes[stage]?.need ?? needs[0]).housing,
    centre,
    undamped: after,
    damping: hasHousing ? policy.kappa : null,
  }
  const rest = { value: stageCost(question, table, stage, path[stage]!), reason: inStage }
  if (stage > 0) return [rest]
  const isTonight = table.mode === 'tonight'
  const arrival: CostReason = {
    kind: 'no place on arrival',
    centre,
    short: onArrival,
    weight: policy.omega,
    isTonight,
  }
  return [{ value: policy.omega * onArrival, reason: arrival }, rest]
}

function moveReasons(
  question: PlacementQuestion,
  table: StayTable,
  path: readonly number[],
  stage: number,
): PricedReason[] {
  const [fromAt, toAt] = [path[stage - 1], path[stage]!]
  if (fromAt === undefined || fromAt === toAt) return []
  const [from, to] = [namedCentre(question, fromAt), namedCentre(question, toAt)]
  return transferReasons(
    question,
    from,
    to,
    roadBetween(question, from, to),
    entryProbability(question, table, stage),
  )
}

/** The terms of one drive between keepers that is needed with this probability. */
export function transferReasons(
  { policy }: PlacementQuestion,
  from: Named,
  to: Named,
  road: Road,
  probability: number,
): PricedReason[] {
  const { transferDays, kmPerPlaceDay } = policy
  return [
    {
      value: transferDays * probability,
      reason: { kind: 'transfer', from, to, probability, weight: transferDays },
    },
    {
      value: (road.km / kmPerPlaceDay) * probability,
      reason: { kind: 'later drive', from, to, km: road.km, probability, kmPerPlaceDay },
    },
  ]
}

/** The term of the drive that brings the animals to whoever takes them first. */
export function driveReason({ policy }: PlacementQuestion, to: Named, road: Road): PricedReason {
  const { kmPerPlaceDay } = policy
  return { value: road.km / kmPerPlaceDay, reason: { kind: 'drive', to, km: road.km, kmPerPlaceDay } }
}

/** P(a drive on from the practice is needed): somebody is still in care when today ends. */
export function onwardProbability({ animals }: PlacementQuestion, table: StayTable): number {
  return inCareTomorrow(animals.count, table.walk)
}

/** The road between two centres; throws RangeError where the question has none. */
export function roadBetween({ between }: PlacementQuestion, from: Named, to: Named): Road {
  const road = between[from.id]?.[to.id]
  if (road === undefined) throw new RangeError(`between needs a road from ${from.id} to ${to.id}, got none`)
  return road
}

/** Id and name of the centre at an index of the question. */
export function namedCentre({ centres }: PlacementQuestion, at: number): Named {
  const { id, name } = centres[at]!
  return { id, name }
}
