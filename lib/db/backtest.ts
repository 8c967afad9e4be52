/**
 * Runs that judge forecasts of days that are over, and the scores of each day, kept as soon as they are there.
 * Promise: one run is open at a time; a day's scores are written once, and said again change nothing. Kept are the newest
 * three runs.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { BacktestRun } from '#lib/domain/backtest.ts'
import { dateOfDay } from '#lib/domain/day.ts'
import { type JudgedOrigin, judgedOrigin } from '#lib/domain/judged-forecast.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import { inAudited } from './entry.ts'

const RUNS_KEPT = 3

/** What a run begins with. */
export type NewBacktest = Pick<
  BacktestRun,
  'begunAt' | 'asOf' | 'revision' | 'modelVersion' | 'seed' | 'historyFrom' | 'origins'
> & { readonly knowledgeRevision: number }

type Row = Omit<BacktestRun, 'judged'>

/** The newest run, with what it judged, the newest day first. */
export async function findBacktest(
  _grant: Grant<'system.run' | 'forecast.read'>,
): Promise<BacktestRun | undefined> {
  const [row] = await db().$queryRaw<Row[]>`
    select id, begun_at as "begunAt", as_of - date '1970-01-01' as "asOf", revision, model_version as "modelVersion", seed,
           history_from - date '1970-01-01' as "historyFrom", cancelled_at as "cancelledAt", finished_at as "finishedAt",
           array(select o.day - date '1970-01-01' from unnest(origins) with ordinality o (day, nth) order by o.nth) as origins
      from backtest order by id desc limit 1`
  if (row === undefined) return undefined
  const rows = await db().backtestOrigin.findMany({
    where: { backtestId: row.id },
    select: { judged: true },
    orderBy: { origin: 'desc' },
  })
  return { ...row, judged: rows.map(({ judged }) => judgedOrigin.parse(judged)) }
}

/**
 * From when on records could be known on their day: something was recorded and entered by then. Null before the first animal
 * came to a centre.
 */
export async function findHistoryStart(_grant: Grant<'system.run' | 'forecast.judge'>): Promise<Date | null> {
  const [row] = await db().$queryRaw<{ at: Date | null }[]>`
    select greatest(min(k.since), min(e.entered_at)) as at
      from keeping k join entry e on e.id = k.entry_id where k.keeper = 'centre'`
  return row?.at ?? null
}

/** Begins a run and gives its number. Failure 'conflict' while another is open. */
export async function beginBacktest(
  grant: Grant<'system.run' | 'forecast.judge'>,
  { begunAt, asOf, revision, knowledgeRevision, modelVersion, seed, historyFrom, origins }: NewBacktest,
): Promise<number> {
  const about = { now: begunAt, action: 'backtest begun', subject: 'backtest', subjectId: String }
  return inAudited(grant, about, async ({ tx }) => {
    const [made] = await tx.$queryRaw<{ id: number }[]>`
      insert into backtest (begun_at, as_of, revision, knowledge_revision, model_version, seed, history_from, origins)
      values (${begunAt}::timestamptz, ${dateOfDay(asOf)}::date, ${revision}::int, ${knowledgeRevision}::int, ${modelVersion},
              ${seed}::int, ${historyFrom === null ? null : dateOfDay(historyFrom)}::date, ${origins.map(dateOfDay)}::date[])
      returning id`
    await tx.$executeRaw`
      delete from backtest where id not in (select id from backtest order by id desc limit ${RUNS_KEPT}::int)`
    return made?.id ?? 0
  })
}

/** Keeps a day's scores; of two that judged the same day the first stands. */
export async function keepJudged(
  _grant: Grant<'system.run'>,
  backtestId: number,
  judged: JudgedOrigin,
  at: Date,
): Promise<void> {
  await db().$executeRaw`
    insert into backtest_origin (backtest_id, origin, judged, judged_at)
    values (${backtestId}::int, ${dateOfDay(judged.origin)}::date, ${JSON.stringify(judged)}::jsonb, ${at}::timestamptz)
    on conflict (backtest_id, origin) do nothing`
}

/** Ends the open run before its time; what it judged stays. Failure 'conflict' where none is open. */
export async function cancelBacktest(
  grant: Grant<'system.run' | 'forecast.judge'>,
  now: Date,
): Promise<void> {
  const about = {
    now,
    action: 'backtest cancelled',
    subject: 'backtest',
    subjectId: String,
    columns: ['cancelled_at'],
  }
  await inAudited(grant, about, async ({ tx }) => {
    const [open] = await tx.$queryRaw<{ id: number }[]>`
      update backtest set cancelled_at = greatest(${now}::timestamptz, begun_at)
       where cancelled_at is null and finished_at is null returning id`
    if (open === undefined) throw new Failure('conflict', { rule: 'backtest-not-open' })
    return open.id
  })
}

/** Ends a run that has judged all its days; Failure 'conflict' where it was cancelled meanwhile. */
export async function finishBacktest(grant: Grant<'system.run'>, id: number, at: Date): Promise<void> {
  const about = {
    now: at,
    action: 'backtest finished',
    subject: 'backtest',
    subjectId: String(id),
    columns: ['finished_at'],
  }
  await inAudited(grant, about, async ({ tx }) => {
    const finished = await tx.$executeRaw`
      update backtest set finished_at = greatest(${at}::timestamptz, begun_at)
       where id = ${id}::int and cancelled_at is null and finished_at is null`
    if (finished === 0) throw new Failure('conflict', { rule: 'backtest-not-open' })
  })
}

/** Whether a run goes on: false once somebody cancelled it. */
export async function isBacktestOpen(_grant: Grant<'system.run'>, id: number): Promise<boolean> {
  const open = await db().backtest.count({ where: { id, cancelledAt: null, finishedAt: null } })
  return open > 0
}
