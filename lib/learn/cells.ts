/**
 * Which cells a network learns, and whose stays belong to each.
 * Promise: pure. Cells are the stages of today's plans, every one, and of the combinations of plans that records have; what
 * a plan says today is the cell's plan, however an animal's own copy was changed: the days are what happened. A
 * record finds its cell by plans, stage and, where the stage ends by a date, season of admission; one of a
 * stage that its plans no longer have teaches nothing.
 */
import type { CarePlan } from '#lib/domain/care-plan.ts'
import { combinePlans } from '#lib/domain/care-plan-combination.ts'
import { type DayNumber, dateOfDay, dayOfDate, dayOfInstant } from '#lib/domain/day.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import { cellKey, SEASONS, type Season, seasonOf } from '#lib/domain/stage-cell.ts'
import type { StageEstimate } from '#lib/forecast/model.ts'
import { gateDelayOf } from '#lib/forecast/stage-law.ts'
import type { StageRecords } from './learn-stages.ts'
import { type RecordedDay, stayOfRecord } from './recorded.ts'
import { daysOfStay, type RecordedStay, type StayGate } from './stay.ts'

/** A stage that an animal began, by instants. `notPassedAt`: when a check that bars going on was last not passed. */
export type StageRow = {
  readonly casualtyId: number
  readonly admittedAt: Date
  readonly planIds: readonly string[]
  readonly stageNo: number
  readonly estimate: StageEstimate
  readonly beganAt: Date
  readonly beganEarliest: Date | null
  readonly readyAt: Date | null
  readonly readyEarliest: Date | null
  readonly nextAt: Date | null
  readonly endedAt: Date | null
  readonly endedEarliest: Date | null
  readonly outcome: Outcome | null
  readonly notPassedAt: Date | null
}

export type StageCell = {
  readonly key: string
  readonly planIds: readonly string[]
  readonly stageNo: number
  readonly condition: string
  readonly season: Season | null
  readonly estimate: StageEstimate
}

/** Days of a cell come in steps of this many, so that a longer stay seldom changes them. */
export const DAYS_STEP = 128
export const DAYS_MAX = 1536
/** Stays beyond four times the 90th percentile are too few to tell days apart. */
const REACH = 4
/** The longest that a date gate keeps anybody waiting, beside the plan's least time. */
const YEAR_DAYS = 366

/** All cells, by key. `rows` are in the order of admission. */
export function cellsOf(plans: readonly CarePlan[], rows: readonly StageRow[]): StageCell[] {
  const byId = new Map(plans.map(plan => [plan.id, plan]))
  const cells = new Map<string, StageCell>()
  const add = (planIds: readonly string[], stageNo: number, condition: string, estimate: StageEstimate) => {
    const isByDate = estimate.ready.kind === 'date gate'
    for (const season of isByDate ? SEASONS : [null]) {
      const key = cellKey(planIds, stageNo, season)
      cells.set(key, { key, planIds, stageNo, condition, season, estimate: unbarred(estimate) })
    }
  }
  const combinations = new Map(rows.map(({ planIds }) => [named(planIds), [...planIds].sort()]))
  for (const planIds of [...plans.map(({ id }) => [id]), ...combinations.values()]) {
    const known = planIds.flatMap(id => byId.get(id) ?? [])
    if (known.length < planIds.length) continue
    const condition = joined(known.map(plan => plan.condition))
    for (const [at, { estimate }] of combinePlans(known).stages.entries()) {
      add(planIds, at + 1, condition, estimate)
    }
  }
  for (const { planIds, stageNo, estimate } of rows) {
    if (planIds.every(id => byId.has(id))) continue
    const sorted = [...planIds].sort()
    // A plan is named by its condition first; the row admitted last is the newest.
    add(sorted, stageNo, joined(sorted.map(id => id.split('.')[0] ?? id)), estimate)
  }
  return [...cells.values()].sort((a, b) => (a.key < b.key ? -1 : 1))
}

/** The cells with their stays and days, as known on the morning of `asOf`, for learnStages. */
export function cellRecords(
  cells: readonly StageCell[],
  rows: readonly StageRow[],
  zone: string,
  asOf: DayNumber,
): StageRecords[] {
  const byStage = new Map(cells.map(cell => [stageName(cell.planIds, cell.estimate, cell.season), cell]))
  const stays = new Map<string, RecordedStay[]>(cells.map(({ key }) => [key, []]))
  for (const row of rows) {
    const season = seasonOf(dayOfInstant(row.admittedAt, zone))
    const cell =
      byStage.get(stageName(row.planIds, row.estimate, null)) ??
      byStage.get(stageName(row.planIds, row.estimate, season))
    if (cell !== undefined) stays.get(cell.key)?.push(stayOf(row, cell, zone))
  }
  return cells.map(({ key, condition, estimate }) => {
    const its = stays.get(key) ?? []
    return {
      key,
      stage: estimate.stage,
      condition,
      estimate,
      stays: its,
      days: daysOfCell(estimate, its, asOf),
    }
  })
}

/**
 * How many days of a stage are told apart: four times the 90th percentile of its plan (of the lag, after the longest
 * wait, at a date gate) or what was recorded, the longer, in whole steps.
 */
export function daysOfCell(
  { ready }: StageEstimate,
  stays: readonly RecordedStay[],
  asOf: DayNumber,
): number {
  const planned =
    ready.kind === 'length'
      ? REACH * ready.length.p90Days
      : YEAR_DAYS + ready.minDays + REACH * ready.lag.p90Days
  const longest = stays.reduce((most, stay) => Math.max(most, daysOfStay(stay, asOf).until + 1), 0)
  const wanted = Math.ceil(Math.max(1, planned, longest + 1) / DAYS_STEP) * DAYS_STEP
  return Math.min(DAYS_MAX, wanted)
}

/** The 15th of the middle month. */
const MIDDLE: Readonly<Record<Season, string>> = {
  winter: '01-15',
  spring: '04-15',
  summer: '07-15',
  autumn: '10-15',
}

/** Days until the date gate of an animal that enters in the middle of the cell's season; 0 where no date ends the stage. */
export function usualWait(
  { season, estimate }: Pick<StageCell, 'season' | 'estimate'>,
  asOf: DayNumber,
): number {
  if (season === null) return 0
  return gateDelayOf(estimate, dayOfDate(`${dateOfDay(asOf).slice(0, 4)}-${MIDDLE[season]}`))
}

function stayOf(row: StageRow, cell: StageCell, zone: string): RecordedStay {
  const day = (at: Date) => dayOfInstant(at, zone)
  const span = (at: Date, earliest: Date | null): RecordedDay =>
    earliest === null ? { on: day(at) } : { on: day(at), earliest: day(earliest) }
  const { readyAt, nextAt, endedAt, outcome } = row
  const beganOn = middleDay(span(row.beganAt, row.beganEarliest), [readyAt, nextAt, endedAt], day)
  const gate = gateOf(row, cell, beganOn, row.notPassedAt === null ? null : day(row.notPassedAt))
  return stayOfRecord({
    key: `${row.casualtyId}|${row.stageNo}`,
    began: { on: beganOn },
    ready: readyAt === null ? null : span(readyAt, row.readyEarliest),
    next: nextAt === null ? null : day(nextAt),
    ended: endedAt === null || outcome === null ? null : { ...span(endedAt, row.endedEarliest), outcome },
    ...(gate !== undefined && { gate }),
  })
}

/**
 * The day that stands for a beginning known only to lie between two: the middle one, but none after an end. Its error is
 * that of a length to the second order; lengths are many times such a span.
 */
function middleDay(
  { on, earliest = on }: RecordedDay,
  ends: readonly (Date | null)[],
  day: (at: Date) => DayNumber,
): DayNumber {
  const middle = Math.floor((Math.min(earliest, on) + on) / 2)
  return Math.min(middle, ...ends.flatMap(at => (at === null ? [] : [Math.max(earliest, day(at))])))
}

/** What barred this animal: the check and the date of its own copy of the plan. */
function gateOf(
  { estimate }: StageRow,
  cell: StageCell,
  beganOn: DayNumber,
  tested: DayNumber | null,
): StayGate | undefined {
  const { leastDays = 0 } = estimate
  const isByDate = cell.estimate.ready.kind === 'date gate'
  const dated = estimate.ready.kind === 'date gate' ? estimate : cell.estimate
  const gate: StayGate = {
    ...(leastDays > 0 && { check: beganOn + leastDays }),
    ...(isByDate && { opens: beganOn + gateDelayOf(dated, beganOn) }),
    ...(tested !== null && { tested }),
  }
  return Object.keys(gate).length > 0 ? gate : undefined
}

/** A cell is of all animals of its kind; a booked check bars one. */
function unbarred({ stage, ready, shares, died, euthanased }: StageEstimate): StageEstimate {
  return { stage, ready, shares, died, euthanased }
}

function stageName(planIds: readonly string[], { stage }: StageEstimate, season: Season | null): string {
  return `${named(planIds)}|${stage}|${season ?? ''}`
}

function named(planIds: readonly string[]): string {
  return [...planIds].sort().join('+')
}

function joined(conditions: readonly string[]): string {
  return [...new Set(conditions)].sort().join('+')
}
