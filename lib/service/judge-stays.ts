/**
 * Stays that began in the days after a judged one, each predicted on its first day by what had been learned by then.
 * Promise: a stay's plan is the one that was known at the end of those days, its law the one that pages show; how it ended is
 * told by what is known now, and a stay that goes on counts as far as that.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { findRevisionBefore } from '#lib/db/past-network.ts'
import { listStageRecords, type StageRecordRow } from '#lib/db/stage-record.ts'
import { type DayNumber, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import type { JudgedStay } from '#lib/domain/judged-forecast.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { learnedEstimate } from '#lib/forecast/learned-estimate.ts'
import { stageLaw } from '#lib/forecast/stage-law.ts'
import { daysToPredict, judgedStay } from '#lib/judge/stay-summary.ts'
import { cellRecords, cellsOf } from '#lib/learn/cells.ts'
import { daysOfStay } from '#lib/learn/stay.ts'

/** As far apart as the judged days are, so that each stay is judged once. */
const WINDOW_DAYS = 14

/** How stays came out, by animal and stage: the day each ended, or the last on which it is known not to have. */
export type StayEnds = ReadonlyMap<string, { readonly until: number; readonly isEnded: boolean }>

/** How all stays came out, by facts up to a revision. */
export async function readStayEnds(
  grant: Grant<'system.run'>,
  { trade, zone }: { readonly trade: Trade; readonly zone: string },
  { asOf, revision }: { readonly asOf: DayNumber; readonly revision: number },
): Promise<StayEnds> {
  const rows = await listStageRecords(grant, startOfDay(asOf, zone), revision)
  const records = cellRecords(cellsOf(trade.plans, rows), rows, zone, asOf)
  return new Map(
    records.flatMap(({ stays }) =>
      stays.map(stay => {
        const { until, exit } = daysOfStay(stay, asOf)
        return [stay.key, { until, isEnded: exit !== null }] as const
      }),
    ),
  )
}

/** The stays that began within two weeks after `origin`, predicted with the knowledge of that day. */
export async function judgeStays(
  grant: Grant<'system.run'>,
  { trade, zone, ends }: { readonly trade: Trade; readonly zone: string; readonly ends: StayEnds },
  origin: DayNumber,
): Promise<JudgedStay[]> {
  const over = startOfDay(origin + WINDOW_DAYS + 1, zone)
  const rows = await listStageRecords(grant, over, await findRevisionBefore(grant, over))
  return rows.flatMap(row => {
    const enteredOn = dayOfInstant(row.beganAt, zone)
    const end = ends.get(keyOf(row))
    if (enteredOn <= origin || enteredOn > origin + WINDOW_DAYS || end === undefined) return []
    const admitted = { planIds: row.planIds, admittedOn: dayOfInstant(row.admittedAt, zone) }
    const estimate = learnedEstimate(trade, admitted, row.estimate)
    return [judgedStay({ staying: stageLaw(estimate, enteredOn, daysToPredict(end)).staying, ...end })]
  })
}

/** As lib/learn names a stay. */
function keyOf({ casualtyId, stageNo }: StageRecordRow): string {
  return `${casualtyId}|${stageNo}`
}
