/** A judging with scores of made-up counts, for the pages that show one. */
import { JUDGED_HORIZONS, LEARN_DAYS, originsToJudge } from '#lib/domain/backtest.ts'
import { dateOfDay } from '#lib/domain/day.ts'
import { judgedOrigin } from '#lib/domain/judged-forecast.ts'
import { judgeOrigin } from '#lib/judge/backtest.ts'
import { FIRST_DAY, knownBacktest } from '#tests/support/judged-series.ts'
import type { Records } from './pages.ts'

type Wanted = {
  /** Days of history. */
  readonly days?: number
  /** What the forecast's means are out by. */
  readonly factor?: number
  /** So many days are judged, the newest first; all of them unless given. */
  readonly judged?: number
  readonly state?: 'open' | 'cancelled' | 'finished'
}

/** Puts a judging in place of all others and gives how many days it is to judge. */
export async function judgedRun(
  records: Records,
  { days = LEARN_DAYS + 600, factor = 1, judged = Number.POSITIVE_INFINITY, state = 'finished' }: Wanted = {},
): Promise<number> {
  const asOf = FIRST_DAY + days
  const origins = originsToJudge(FIRST_DAY, asOf)
  const backtest = { ...knownBacktest(days, factor), horizons: JUDGED_HORIZONS }
  await records('delete from backtest')
  const ended = (kind: string) => (state === kind ? "'2026-11-30T14:20Z'" : 'null')
  const [made] = await records<{ id: number }>(
    `insert into backtest (begun_at, as_of, revision, knowledge_revision, model_version, seed, history_from, origins, cancelled_at,
        finished_at)
      values ('2026-11-30T14:02Z', $1, 1, 1, 'test', 1, $2, $3::date[], ${ended('cancelled')}, ${ended('finished')}) returning id`,
    [dateOfDay(asOf), dateOfDay(FIRST_DAY), origins.map(dateOfDay)],
  )
  for (const origin of origins.slice(0, judged)) {
    const row = judgedOrigin.parse(judgeOrigin(backtest, origin))
    await records('insert into backtest_origin values ($1, $2, $3, $4)', [
      made?.id,
      dateOfDay(origin),
      JSON.stringify(row),
      '2026-11-30T14:10Z',
    ])
  }
  return origins.length
}
