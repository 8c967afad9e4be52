/**
 * Options that end in a stay at a centre: admitted now (for the whole stay, or moved on later), straight to a vet and
 * on tomorrow, kept till morning and brought then.
 * Promise: what is shown of an option and what it costs come from the same path and the same table.
 */
import type { Destination, PlacementOption, PlannedMove } from '#lib/domain/option.ts'
import type { PathStage } from '#lib/forecast/model.ts'
import { addedShortage } from './added-shortage.ts'
import { askFirst, bareOption, optionKey } from './bare-option.ts'
import type { BestPaths } from './best-path.ts'
import type { CentreNow, Outlook, PlacementQuestion, PracticeNow } from './model.ts'
import { barsTomorrow } from './rule.ts'
import {
  cheapestPaths,
  driveReason,
  namedCentre,
  onwardProbability,
  roadBetween,
  stageCost,
  stayReasons,
  transferReasons,
} from './stay-bill.ts'
import { entryQuantiles, pathStops, ribbonOf, weakestStop } from './stay-picture.ts'
import { moveProbability, type StayTable } from './stay-table.ts'
import { billOf, type PricedReason } from './term.ts'

/** One way of arriving, priced: the table and the cheapest way on from each centre. */
export type PricedStay = {
  readonly question: PlacementQuestion
  readonly outlook: Outlook
  readonly table: StayTable
  readonly cheapest: BestPaths
}

/** Prices the ways on for one way of arriving. */
export function pricedStay(question: PlacementQuestion, outlook: Outlook, table: StayTable): PricedStay {
  return { question, outlook, table, cheapest: cheapestPaths(question, table) }
}

/**
 * Admission at one centre now: for its whole stay, and where moving on later costs less, that too.
 * `centreAt` is the index of a centre that no rule bars tonight.
 */
export function admissionOptions(stay: PricedStay, centreAt: number): PlacementOption[] {
  const { question, cheapest } = stay
  const whole = question.animals.stages.map(() => centreAt)
  const best = cheapest.pathFrom(centreAt)
  const paths = best.every(at => at === centreAt) ? [whole] : [whole, best]
  return paths.map(path => admission(stay, path))
}

function admission(stay: PricedStay, path: readonly number[]): PlacementOption {
  const { question, table } = stay
  const centre = question.centres[path[0]!]!
  const { count } = question.animals
  const isMoving = path.some(at => at !== path[0])
  return {
    ...bareOption(isMoving ? 'admit and move' : 'admit', destinationOf(centre)),
    ...pictureOf(stay, path),
    key: optionKey(
      'admit',
      path.map(at => question.centres[at]!.id),
    ),
    travel: centre.road,
    countedDaysAgo: centre.countedDaysAgo,
    door: centre.door.kind === 'shut' ? null : centre.door,
    askFirst: askFirst(centre, count),
    placesTonight: placesFor(centre, count),
    shortTonight: count - Math.min(count, centre.freeTonight.length),
    ...billOf([
      ...stayReasons(question, table, path),
      driveReason(question, namedCentre(question, path[0]!), centre.road),
    ]),
  }
}

/** The places to hold: in one enclosure where one has room for all, else the best ones. */
function placesFor({ freeTonight }: CentreNow, count: number): CentreNow['freeTonight'] {
  const together = freeTonight.find(
    ({ enclosureId }) => freeTonight.filter(place => place.enclosureId === enclosureId).length >= count,
  )
  const fitting =
    together === undefined
      ? freeTonight
      : freeTonight.filter(place => place.enclosureId === together.enclosureId)
  return fitting.slice(0, count)
}

/** Straight to a vet, then the centre that is cheapest from tomorrow; no path where no centre can follow. */
export function vetOption(stay: PricedStay, practice: PracticeNow): PlacementOption {
  const { question, table } = stay
  const { id, name } = practice
  const drive = driveReason(question, { id, name }, practice.road)
  const to: Destination = { kind: 'practice', id, name, phone: practice.phone }
  const found = cheapestFollowing(stay, at => {
    const road = practice.toCentres[question.centres[at]!.id]
    return road === undefined
      ? null
      : transferReasons(
          question,
          { id, name },
          namedCentre(question, at),
          road,
          onwardProbability(question, table),
        )
  })
  const bare = { ...bareOption('vet', to), travel: practice.road }
  if (found === null) {
    const refused: PricedReason = { value: question.policy.refusalDays, reason: { kind: 'refused' } }
    return { ...bare, key: optionKey('vet', [id]), isUnmetDemand: true, ...billOf([refused, drive]) }
  }
  const picture = pictureOf(stay, found.path)
  const onward = firstMove(stay, practice, found.path)
  return {
    ...bare,
    ...picture,
    key: optionKey('vet', [id, ...found.path.map(at => question.centres[at]!.id)]),
    moves: [onward, ...picture.moves],
    countedDaysAgo: question.centres[found.path[0]!]!.countedDaysAgo,
    askFirst: askFirst(question.centres[found.path[0]!]!, question.animals.count),
    ...billOf([...stayReasons(question, table, found.path), ...found.reasons, drive]),
  }
}

function firstMove(stay: PricedStay, practice: PracticeNow, path: readonly number[]): PlannedMove {
  const { question, table } = stay
  const { id, name } = practice
  const tomorrow = question.today + 1
  const road = practice.toCentres[question.centres[path[0]!]!.id]!
  return {
    from: { id, name },
    to: namedCentre(question, path[0]!),
    stage: question.animals.stages[0]!.stage,
    on: { q10: tomorrow, q25: tomorrow, q50: tomorrow, q75: tomorrow, q90: tomorrow },
    km: road.km,
    minutes: road.minutes,
    probability: onwardProbability(question, table),
  }
}

/** Kept till morning on a vet's word, then the centre that is cheapest from tomorrow; null where none can follow. */
export function keepOption(stay: PricedStay): PlacementOption | null {
  const { question, table } = stay
  const { keep, policy, urgency } = question
  const found = cheapestFollowing(stay, at => [
    driveReason(question, namedCentre(question, at), question.centres[at]!.road),
  ])
  if (keep === null || found === null) return null
  const centre = question.centres[found.path[0]!]!
  const kept: PricedReason = { value: policy.keepDays[urgency], reason: { kind: 'kept till morning' } }
  return {
    ...bareOption('keep till morning', destinationOf(centre)),
    ...pictureOf(stay, found.path),
    key: optionKey(
      'keep',
      found.path.map(at => question.centres[at]!.id),
    ),
    travel: centre.road,
    countedDaysAgo: centre.countedDaysAgo,
    askFirst: askFirst(centre, question.animals.count),
    keep,
    isUnmetDemand: true,
    ...billOf([kept, ...stayReasons(question, table, found.path), ...found.reasons]),
  }
}

type Following = { readonly path: readonly number[]; readonly reasons: readonly PricedReason[] }

/** The cheapest centre from tomorrow on, the way there included; null where every centre is barred. */
function cheapestFollowing(
  { question, table, cheapest }: PricedStay,
  wayTo: (centreAt: number) => readonly PricedReason[] | null,
): Following | null {
  let best: (Following & { readonly cost: number }) | null = null
  for (const [at, centre] of question.centres.entries()) {
    const reasons = barsTomorrow(question, centre) === null ? wayTo(at) : null
    if (reasons === null) continue
    const cost =
      reasons.reduce((sum, { value }) => sum + value, 0) +
      question.policy.omega * table.stages[0]![at]!.onArrival +
      stageCost(question, table, 0, at) +
      cheapest.costAfter(at)
    if (best === null || cost < best.cost - TIE) best = { path: cheapest.pathFrom(at), reasons, cost }
  }
  return best
}

/** Costs that differ by less are equal; the centre that comes first then stays. */
const TIE = 1e-9

/** Everything about an option that its path alone decides. */
function pictureOf(stay: PricedStay, path: readonly number[]) {
  const { question, outlook, table } = stay
  const { animals, centres, today } = question
  const stops = pathStops(question, table, path)
  const pathStages: PathStage[] = path.map((centreAt, stage) => {
    const { estimate, needs } = animals.stages[stage]!
    const home = centres[centreAt]!.homes[stage] ?? null
    return { estimate, need: home?.need ?? needs[0], poolId: home?.poolId ?? null }
  })
  return {
    path: stops,
    moves: movesOf(stay, path),
    ribbon: ribbonOf(table, path, today),
    release: entryQuantiles(table.walk[path.length]!, today),
    weakest: weakestStop(stops),
    addedShortage: addedShortage(outlook, table.walk, pathStages, {
      count: animals.count,
      entersOn: table.entersOn,
      fromDay: table.arrivalDay,
    }),
  }
}

function movesOf({ question, table }: PricedStay, path: readonly number[]): PlannedMove[] {
  return path.flatMap((toAt, stage): PlannedMove[] => {
    const fromAt = path[stage - 1]
    if (fromAt === undefined || fromAt === toAt) return []
    const [from, to] = [namedCentre(question, fromAt), namedCentre(question, toAt)]
    const road = roadBetween(question, from, to)
    const { reachProbability } = table.walk[stage]!
    return [
      {
        from,
        to,
        stage: question.animals.stages[stage]!.stage,
        on: entryQuantiles(table.walk[stage]!, question.today),
        km: road.km,
        minutes: road.minutes,
        probability: moveProbability(question.animals.count, reachProbability),
      },
    ]
  })
}

/** A centre as the place an option sends the animals to. */
function destinationOf({ id, name, phone }: CentreNow): Destination {
  return { kind: 'centre', id, name, phone }
}
