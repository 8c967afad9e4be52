/**
 * When forecasts are judged, and judging then: what the worker asks every minute.
 * Promise: one process judges at a time; each day's scores are kept at once, so whatever ends the work costs one day at most,
 * and the next start goes on to the same scores. Learning goes first, and a person's word to cancel is heard within
 * seconds.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import { alone } from '#lib/db/alone.ts'
import { cancelBacktest, findBacktest, finishBacktest, isBacktestOpen, keepJudged } from '#lib/db/backtest.ts'
import { findRun } from '#lib/db/learned.ts'
import { type BacktestRun, isOpen } from '#lib/domain/backtest.ts'
import { openOrigins } from '#lib/judge/backtest.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { beginNow } from './backtest.ts'
import { judgeDay } from './judge-origin.ts'
import { readStayEnds } from './judge-stays.ts'
import { readTruth } from './judge-truth.ts'
import { MODEL_VERSION } from './learn.ts'
import { isLearningDue } from './learning-due.ts'
import { readState } from './network.ts'

/** The job's name. */
export const JUDGING = 'judge'
/** Begun anew after four weeks, when two more days of the grid are over. */
const PAUSE_MS = 28 * 86_400_000
/** Days judged in one job, half a minute each: a job ends long before it would be given up. */
const DAYS_A_JOB = 10
const LOOK_MS = 1000

/** System: whether there is something to judge: a run is open, or the last one began long ago. Never before a learning run. */
export async function isBacktestDue(now: Date): Promise<boolean> {
  const grant = demand(systemActor('backtest'), 'system.run')
  if ((await findRun(grant)) === undefined) return false
  const newest = await findBacktest(grant)
  if (newest === undefined || isOpen(newest)) return true
  return now.getTime() - newest.begunAt.getTime() >= PAUSE_MS
}

/** System: goes on with the open run, or begins one, where that is due and no other process is at it. */
export async function judgeWhenDue(clock: () => Promise<Date>, signal: AbortSignal): Promise<void> {
  const grant = demand(systemActor('backtest'), 'system.run')
  await alone(grant, JUDGING, async () => {
    const now = await clock()
    // Asked for before there was something to learn: learning goes first all the same.
    if (!(await isBacktestDue(now)) || (await isLearningDue(now))) return
    const run = await openRun(grant, now)
    if (run !== undefined) await judgeSome(grant, run, clock, signal)
  })
}

/** The open run, or a new one. One that another version of the method began is ended: its scores would be of two methods. */
async function openRun(grant: Grant<'system.run'>, now: Date): Promise<BacktestRun | undefined> {
  const newest = await findBacktest(grant)
  if (newest !== undefined && isOpen(newest)) {
    if (newest.modelVersion === MODEL_VERSION) return newest
    await cancelBacktest(grant, now).catch(unlessChanged)
  }
  await beginNow(grant, now).catch(unlessChanged)
  return findBacktest(grant)
}

/** Judges the next days of a run, and finishes it after the last. Ends early while learning is due, or once it is cancelled. */
async function judgeSome(
  grant: Grant<'system.run'>,
  run: BacktestRun,
  clock: () => Promise<Date>,
  signal: AbortSignal,
): Promise<void> {
  const left = openOrigins(run.origins, run.judged)
  const ended = new AbortController()
  const stopLooking = lookForEnd(grant, run.id, ended)
  const parts = { signal: AbortSignal.any([signal, ended.signal]) }
  try {
    const judging = left.length === 0 ? undefined : await prepare(grant, run, await clock(), parts.signal)
    for (const origin of left.slice(0, DAYS_A_JOB)) {
      if (judging === undefined || !(await goesOn(grant, run.id, await clock()))) return
      const judged = await judgeDay(grant, judging, origin, parts)
      await keepJudged(grant, run.id, judged, await clock())
    }
    if (left.length <= DAYS_A_JOB) await finishBacktest(grant, run.id, await clock()).catch(unlessChanged)
  } catch (thrown) {
    if (!ended.signal.aborted) throw thrown
  } finally {
    stopLooking()
  }
}

/** Whether the next day may be judged: nobody ended the run, and learning does not wait. */
async function goesOn(grant: Grant<'system.run'>, id: number, now: Date): Promise<boolean> {
  return (await isBacktestOpen(grant, id)) && !(await isLearningDue(now))
}

async function prepare(grant: Grant<'system.run'>, run: BacktestRun, now: Date, signal: AbortSignal) {
  const { state, trade } = await readState(now)
  const from = run.historyFrom ?? run.asOf
  const { asOf, revision } = run
  return {
    state,
    trade,
    truth: await readTruth(grant, { state, trade }, { from, asOf, revision, signal }),
    ends: await readStayEnds(grant, { trade, zone: state.zone }, { asOf, revision }),
  }
}

/** Looks every second whether somebody ended the run. */
function lookForEnd(grant: Grant<'system.run'>, id: number, ended: AbortController): () => void {
  const look = async () => {
    // A database that can't be asked now is asked again.
    const isGoingOn = await isBacktestOpen(grant, id).catch(() => true)
    if (!isGoingOn) ended.abort(new Error('the backtest was cancelled'))
  }
  const timer = setInterval(look, LOOK_MS)
  return () => clearInterval(timer)
}

/** Somebody else began or ended one meanwhile. */
function unlessChanged(thrown: unknown): undefined {
  if (isFailure(thrown) && thrown.code === 'conflict') return undefined
  throw thrown
}
