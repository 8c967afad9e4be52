/**
 * Whether past forecasts came true, for the page that tells it: the newest judging, under way or over.
 * Promise: what is judged so far is shown as it stands, and marked so by its state; nothing is judged here.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findBacktest } from '#lib/db/backtest.ts'
import { findRun } from '#lib/db/learned.ts'
import { type BacktestRun, JUDGED_HORIZONS, LEARN_DAYS } from '#lib/domain/backtest.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import { needsDays } from '#lib/judge/verdict.ts'
import { type JudgedFigures, judgedFigures } from './judged-view.ts'

/** A judging: when it ended, if it did, and how; `missing` where history was too short for a horizon's doubt. */
export type JudgedShown = JudgedFigures & {
  readonly state: 'open' | 'cancelled' | 'finished'
  readonly begunAt: Date
  readonly endedAt: Date | null
  readonly outOf: number
  readonly revision: number
  readonly modelVersion: string
  readonly seed: number
  readonly historyFrom: DayNumber | null
  readonly missing: readonly Missing[]
}

/** The figures of the newest judging, by its number and how many days it judged: a day's scores never change. */
const kept: { figures?: { readonly key: string; readonly of: JudgedFigures } } = {}

/** Days of records that a horizon has, and those that it takes. */
export type Missing = { readonly horizon: number; readonly hasDays: number; readonly needsDays: number }

/** `isLearned`: whether forecasts use the network's own records. `judged` is undefined before the first judging. */
export async function readJudged(
  actor: Actor,
): Promise<{ readonly isLearned: boolean; readonly judged: JudgedShown | undefined }> {
  const grant = demand(actor, 'forecast.read')
  const [run, found] = await Promise.all([findRun(grant), findBacktest(grant)])
  if (found === undefined) return { isLearned: run !== undefined, judged: undefined }
  const { begunAt, cancelledAt, finishedAt, asOf, historyFrom, origins } = found
  const { revision, modelVersion, seed } = found
  return {
    isLearned: run !== undefined,
    judged: {
      ...figuresOf(found),
      state: cancelledAt !== null ? 'cancelled' : finishedAt !== null ? 'finished' : 'open',
      begunAt,
      endedAt: cancelledAt ?? finishedAt,
      outOf: origins.length,
      revision,
      modelVersion,
      seed,
      historyFrom,
      missing: missingDays(historyFrom, asOf),
    },
  }
}

/** Thousands of single stays are gone through once, not by everybody who looks. */
function figuresOf({ id, begunAt, judged }: BacktestRun): JudgedFigures {
  const key = `${id}|${begunAt.getTime()}|${judged.length}`
  if (kept.figures?.key !== key) kept.figures = { key, of: judgedFigures(judged) }
  return kept.figures.of
}

/** No rows: the horizons whose doubt can't be told yet. */
function missingDays(historyFrom: DayNumber | null, asOf: DayNumber): Missing[] {
  const hasDays = historyFrom === null ? 0 : asOf - historyFrom
  return JUDGED_HORIZONS.map(horizon => ({
    horizon,
    hasDays,
    needsDays: needsDays(horizon, LEARN_DAYS),
  })).filter(one => one.hasDays < one.needsDays)
}
