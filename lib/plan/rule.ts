/**
 * The rules that take a centre, a practice, an outside place or a move off the list before anything is priced.
 * Promise: each cut names the one rule it rests on, the hardest first, with what its sentence needs; where no rule
 * stands in the way the answer is null. A closed door is a rule, never a cost.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { LocalTime, RuledOut, RuledOutReason } from '#lib/domain/option.ts'
import type {
  CentreNow,
  OutsidePlace,
  PlacementQuestion,
  PlanStage,
  PracticeNow,
  SiteState,
} from './model.ts'

/** Why this centre can receive none of these animals on any day; null when it can. */
export function barsForGood(question: PlacementQuestion, centre: CentreNow): RuledOutReason | null {
  if (!centre.isActive) return { rule: 'inactive' }
  if (!centre.takesGroup) return { rule: 'takes no such group', group: question.animals.group.name }
  if (centre.lacksLicence !== undefined) return { rule: 'not authorised', licence: centre.lacksLicence }
  return barsBySite(question, centre.site)
}

function barsBySite({ animals }: PlacementQuestion, site: SiteState): RuledOutReason | null {
  switch (site.kind) {
    case 'no movement':
      return site.coversThese ? { rule: 'movement stop', since: site.since, covers: site.covers } : null
    case 'closed to high risk':
      return animals.isHighRisk ? { rule: 'closed to high risk' } : null
    default:
      return null
  }
}

/** Why the first stage can't be spent at this centre from tomorrow on; null when it can. */
export function barsTomorrow(question: PlacementQuestion, centre: CentreNow): RuledOutReason | null {
  return (
    barsForGood(question, centre) ??
    barsByWord(question, centre, question.today + 1) ??
    barsByHousing(question, centre, centre.homes[0] === null)
  )
}

/** Why these animals can't be admitted at this centre now; null when they can. */
export function barsTonight(question: PlacementQuestion, centre: CentreNow): RuledOutReason | null {
  const isWithout = centre.homes[0] === null && centre.freeTonight.length === 0
  return (
    barsForGood(question, centre) ??
    barsByWord(question, centre, question.today) ??
    barsByHousing(question, centre, isWithout) ??
    barsByDoor(centre)
  )
}

/** Why a suspected animal can't be examined outside this centre now; null when it can. */
export function barsExamination(question: PlacementQuestion, centre: CentreNow): RuledOutReason | null {
  return barsForGood(question, centre) ?? barsByWord(question, centre, question.today) ?? barsByDoor(centre)
}

/** What the centre said of itself; on a later day only what it said beyond that day's morning. */
function barsByWord(
  { animals, today }: PlacementQuestion,
  { noMoreUntil, feeding }: CentreNow,
  day: DayNumber,
): RuledOutReason | null {
  const holds = (until: LocalTime) => day === today || until.day > day
  if (noMoreUntil !== null && holds(noMoreUntil)) return { rule: 'no more', until: noMoreUntil }
  if (feeding === null || !holds(feeding.until) || animals.feedsADay <= feeding.rounds) return null
  return { rule: 'feeding rounds', can: feeding.rounds, needs: animals.feedsADay }
}

function barsByHousing(
  { animals }: PlacementQuestion,
  centre: CentreNow,
  isWithout: boolean,
): RuledOutReason | null {
  const first = animals.stages[0]!
  if (centre.site.kind === 'isolation full' && needsIsolation(first)) return { rule: 'isolation full' }
  return isWithout ? { rule: 'no housing', stage: first.stage, housing: first.needs[0].housing } : null
}

function barsByDoor({ door }: CentreNow): RuledOutReason | null {
  return door.kind === 'shut' ? { rule: 'shut', until: door.opensAt } : null
}

/** Why the animals can't go straight to this practice; null when they can. */
export function barsPractice(question: PlacementQuestion, practice: PracticeNow): RuledOutReason | null {
  if (!practice.seesGroup) return { rule: 'takes no such group', group: question.animals.group.name }
  return practice.hasCoverNow ? null : { rule: 'no cover now' }
}

/** Why the finder can't be sent to this outside place; null when they can. */
export function barsOutside(question: PlacementQuestion, place: OutsidePlace): RuledOutReason | null {
  return place.takesGroup ? null : { rule: 'takes no such group', group: question.animals.group.name }
}

/** Why the animals can't be kept till morning; null when they can. */
export function barsKeeping({ keep, isCaught, hasFinder }: PlacementQuestion): RuledOutReason | null {
  if (!isCaught) return { rule: 'not caught' }
  if (keep === null) return { rule: 'no vet agreed' }
  return keep.keptBy === 'finder' && !hasFinder ? { rule: 'nobody to keep it' } : null
}

/** Whether the move into stage `stage` (from 1) would carry an animal that is still in isolation. */
export function isMoveInIsolation({ animals }: PlacementQuestion, stage: number): boolean {
  return needsIsolation(animals.stages[stage - 1]!) && needsIsolation(animals.stages[stage]!)
}

function needsIsolation({ needs }: PlanStage): boolean {
  return needs.every(({ housing }) => housing === 'isolation')
}

/** Every move that the rule on isolation cuts, one entry a stage that can't be left for another centre. */
export function movesRuledOut(question: PlacementQuestion): readonly RuledOut[] {
  const { stages } = question.animals
  return stages.flatMap((after, stage): RuledOut[] =>
    stage > 0 && isMoveInIsolation(question, stage)
      ? [{ who: { kind: 'move', stage: stages[stage - 1]!.stage }, rule: 'in isolation', next: after.stage }]
      : [],
  )
}
