/**
 * The stay of one animal from its first day to the likely last: what happened crisp, what is expected from the forecast.
 * Promise: a stage that is past ends on the day the next one began; the stage it is in begins on its recorded day; the
 * ground is drawn from today on only. Days are day numbers. Internal to lib/service: no rows of its own.
 */
import type { CheckRow } from '#lib/db/casualty.ts'
import type { KeepingRow, PlanRow, StageFactRow } from '#lib/db/casualty-happened.ts'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import { roadBetweenCentres } from '#lib/domain/place.ts'
import { checkName } from '#lib/words/care.ts'
import type { CheckKind } from '#lib/words/ribbon.ts'
import { HORIZON_DAYS, type Tonight } from './network.ts'
import type { StageEnd, StayAhead } from './stay-ahead.ts'

const DAYS_MIN = 28
const DAYS_PER_WEEK = 7
const DAYS_BEFORE = 2

export type RibbonOfStay = {
  readonly startDay: DayNumber
  readonly todayDay: DayNumber
  readonly stages: readonly {
    readonly stage: CareStage
    readonly end: StageEnd
    readonly chance?: number | undefined
    readonly centre: string
    readonly place?: string | undefined
    readonly kmOn?: number | undefined
  }[]
  readonly groundByDay: readonly number[]
  readonly checks: readonly { readonly day: DayNumber; readonly kind: CheckKind; readonly text: string }[]
  readonly axis: { readonly fromDay: DayNumber; readonly days: number }
}

export type StayKnown = {
  readonly tonight: Tonight
  readonly ahead: StayAhead | undefined
  readonly plan: PlanRow | undefined
  readonly keepings: readonly KeepingRow[]
  readonly stageFacts: readonly StageFactRow[]
  readonly checks: readonly CheckRow[]
}

type Drawn = RibbonOfStay['stages'][number] & { readonly centreId: number | null }

/** No rows: the ribbon; undefined while nothing has begun and nothing is expected. */
export function ribbonOfStay(known: StayKnown): RibbonOfStay | undefined {
  const { tonight, ahead } = known
  const past = pastStages(known)
  const coming = comingStages(known)
  const drawn = withRoads(tonight, [...past.stages, ...coming])
  if (drawn.length === 0) return undefined
  const startDay = past.startDay ?? ahead?.startDay ?? tonight.today
  const lastDay = Math.max(...drawn.map(({ end }) => end.q90), startDay)
  const fromDay = startDay - DAYS_BEFORE
  const wanted = Math.max(DAYS_MIN, lastDay + DAYS_PER_WEEK - fromDay)
  const most = tonight.today + HORIZON_DAYS - fromDay
  return {
    startDay,
    todayDay: tonight.today,
    stages: drawn.map(({ centreId: _id, ...stage }) => stage),
    groundByDay: ahead?.groundByDay ?? [],
    checks: stemsOf(known),
    axis: {
      fromDay,
      days: Math.min(Math.ceil(wanted / DAYS_PER_WEEK) * DAYS_PER_WEEK, Math.max(DAYS_MIN, most)),
    },
  }
}

/** Stages that have begun and are over, or are left and wait for the next. */
function pastStages(known: StayKnown): { startDay: DayNumber | undefined; stages: Drawn[] } {
  const { tonight, ahead, plan, stageFacts, keepings } = known
  const { zone } = tonight.state
  const firstAhead = ahead?.stages[0]?.no ?? Number.POSITIVE_INFINITY
  const began = new Map(
    stageFacts.filter(({ kind }) => kind === 'began').map(fact => [fact.stageNo, fact.at]),
  )
  const numbers = [...began.keys()].sort((a, b) => a - b).filter(no => no < firstAhead)
  const first = began.get(Math.min(...began.keys()))
  const stages = numbers.flatMap((no): Drawn[] => {
    const stage = plan?.stages.find(one => one.no === no)?.stage
    if (stage === undefined) return []
    const next = [...began].filter(([other]) => other > no).map(([, at]) => at)
    const closed = closedAt(keepings)
    const endAt = next.length > 0 ? new Date(Math.min(...next.map(Number))) : closed
    const end = endAt === undefined ? tonight.today : dayOfInstant(endAt, zone)
    const where = whereAt(keepings, endAt)
    return [{ stage, end: sureEnd(end), centre: where?.centre ?? '', centreId: where?.centreId ?? null }]
  })
  return { startDay: first === undefined ? undefined : dayOfInstant(first, zone), stages }
}

function comingStages({ ahead, keepings }: StayKnown): Drawn[] {
  const here = whereAt(keepings, undefined)
  return (ahead?.stages ?? []).map(one => ({
    stage: one.stage,
    end: one.end,
    chance: one.chance,
    centre: one.centre,
    centreId: one.centreId,
    place: one.isHere && here?.centreId === one.centreId ? (here.enclosure ?? undefined) : undefined,
  }))
}

function withRoads({ state }: Tonight, stages: readonly Drawn[]): Drawn[] {
  return stages.map((stage, at) => {
    const before = stages[at - 1]
    if (before === undefined || before.centreId === stage.centreId) return stage
    const from = state.centres.find(({ id }) => id === before.centreId)
    const to = state.centres.find(({ id }) => id === stage.centreId)
    if (from === undefined || to === undefined) return stage
    return { ...stage, kmOn: roadBetweenCentres(from, to, state.travel).km }
  })
}

function sureEnd(day: DayNumber): StageEnd {
  return { q10: day, q25: day, median: day, q75: day, q90: day }
}

/** The fact that held at an instant, or holds now. */
function whereAt(keepings: readonly KeepingRow[], at: Date | undefined): KeepingRow | undefined {
  return keepings.findLast(
    one => !one.isReplaced && !one.isVoid && one.keeper === 'centre' && (at === undefined || one.since < at),
  )
}

function closedAt(keepings: readonly KeepingRow[]): Date | undefined {
  return keepings.findLast(one => !one.isReplaced && !one.isVoid && one.keeper === 'nobody')?.since
}

/** Open checks with a date, and those done that something hung on. Weighing would hide the rest. */
function stemsOf({ checks, tonight }: StayKnown): RibbonOfStay['checks'] {
  const { zone } = tonight.state
  const { today } = tonight
  return checks
    .filter(check => !check.isCalledOff && !(check.slug === 'weigh' && check.doneAt !== null))
    .flatMap(check => {
      const text = checkName(check.slug)
      if (check.doneAt !== null) {
        return check.requiredFor === null && check.passed === true
          ? []
          : [{ day: dayOfInstant(check.doneAt, zone), kind: 'done' as const, text }]
      }
      if (check.dueOn === null) return []
      return [{ day: check.dueOn, kind: kindOf(check.dueOn, today), text }]
    })
}

function kindOf(dueOn: DayNumber, today: DayNumber): CheckKind {
  if (dueOn < today) return 'late'
  return dueOn === today ? 'due' : 'planned'
}
