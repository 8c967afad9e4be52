/**
 * Judging forecasts of days that are over, asked for and ended by people.
 * Promise: one run at a time; asking only begins it, the worker judges. Both stand in the audit.
 */
import { type Actor, systemActor } from '#lib/authz/actor.ts'
import { demand, type Grant } from '#lib/authz/demand.ts'
import { beginBacktest, cancelBacktest as cancelOpen, findHistoryStart } from '#lib/db/backtest.ts'
import { readNetworkFacts } from '#lib/db/network-facts.ts'
import { readRevisions } from '#lib/db/snapshot.ts'
import { originsToJudge } from '#lib/domain/backtest.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import { MODEL_VERSION, SEED } from './learn.ts'

/** Begins a run, which the worker then judges. Failure 'conflict' while another is open. */
export async function askForBacktest(actor: Actor, now: Date): Promise<void> {
  await beginNow(demand(actor, 'forecast.judge'), now)
}

/** Ends the run that is open; what it judged stays. Failure 'conflict' where none is. */
export async function cancelBacktest(actor: Actor, now: Date): Promise<void> {
  await cancelOpen(demand(actor, 'forecast.judge'), now)
}

/** A run of all days that records allow now; gives its number. */
export async function beginNow(grant: Grant<'system.run' | 'forecast.judge'>, now: Date): Promise<number> {
  const system = demand(systemActor('backtest'), 'system.run')
  const { zone } = await readNetworkFacts(system)
  const { revision, knowledgeRevision } = await readRevisions(system)
  const from = await findHistoryStart(system)
  const asOf = dayOfInstant(now, zone)
  const firstDay = from === null ? null : dayOfInstant(from, zone)
  const historyFrom = firstDay !== null && firstDay < asOf ? firstDay : null
  return beginBacktest(grant, {
    begunAt: now,
    asOf,
    revision,
    knowledgeRevision,
    modelVersion: MODEL_VERSION,
    seed: SEED,
    historyFrom,
    origins: originsToJudge(historyFrom, asOf),
  })
}
