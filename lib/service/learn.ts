/**
 * Learning from the network's records, for the worker: which stages, what they teach, one published run.
 * Promise: what is read belongs to one revision of the network and one of the trade, both kept with the run; nothing is
 * published but a whole run, and of two that were begun together one. Nobody who waits for a page comes here.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findRun, type LearnedStageRow, publishRun } from '#lib/db/learned.ts'
import { readRevisions } from '#lib/db/snapshot.ts'
import { listStageRecords } from '#lib/db/stage-record.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { cellRecords, cellsOf } from '#lib/learn/cells.ts'
import { keptStage } from '#lib/learn/kept-stage.ts'
import { PLAN_WEIGHT } from '#lib/learn/posterior.ts'
import { addStageDraws, newStageDraws } from '#lib/learn/shared-draws.ts'
import { learnAllArrivals, learnDoubts } from './learn-arrivals.ts'
import { type LearningParts, learnCells } from './learn-cells.ts'
import { inputsDigest, learnedDigest } from './learn-digest.ts'
import { readState } from './network.ts'

/** Of the method: raised whenever the same records would teach something else. */
export const MODEL_VERSION = 'stages 2, arrivals 3'
/** Of the draws behind a band. */
export const SEED = 1

/**
 * System: learns all stages and arrivals from what is known at an instant and publishes it. Gives the run's number; undefined where
 * another run was published meanwhile, which is as good.
 */
export async function learn(now: Date, parts: LearningParts = {}): Promise<number | undefined> {
  const grant = demand(systemActor('learning'), 'system.run')
  const before = await findRun(grant)
  const { revision } = await readRevisions(grant)
  const { state, trade } = await readState(now)
  const { zone } = state
  const rows = await listStageRecords(grant, now, revision)
  const asOf = dayOfInstant(now, zone)
  const cells = cellsOf(trade.plans, rows)
  const records = cellRecords(cells, rows, zone, asOf)
  const draws = newStageDraws()
  const stages: LearnedStageRow[] = []
  await learnCells(cells, records, asOf, parts, (cell, learned) => {
    stages.push(keptStage(cell, learned, asOf, PLAN_WEIGHT, SEED))
    addStageDraws(draws, learned, PLAN_WEIGHT)
  })
  const moment = { now, asOf, revision, state, trade }
  const arrivals = await learnAllArrivals(grant, moment)
  const doubts = await learnDoubts(grant, moment, draws, arrivals, parts)
  const run = {
    modelVersion: MODEL_VERSION,
    asOf,
    learnedAt: now,
    revision,
    knowledgeRevision: trade.revision,
    planWeight: PLAN_WEIGHT,
    seed: SEED,
    animals: stages.reduce((sum, { animals }) => sum + animals, 0),
    inputsDigest: inputsDigest(records),
    digest: learnedDigest(stages, arrivals),
  }
  const found = { stages, arrivals, doubts }
  return publishRun(grant, run, found, before?.id ?? null).catch(thrown => {
    if (isFailure(thrown) && thrown.code === 'conflict') return undefined
    throw thrown
  })
}
