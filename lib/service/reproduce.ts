/**
 * Learning a run again: from what was entered until then and the plans as the run kept them.
 * Promise: nothing is written. A run is the same when every number that it keeps of a stage, and its digest, is, to the last
 * bit; where it is not, the answer says whether other records went in (a check that was taken back since is open in all
 * of them), which cells differ, or else that arrivals do, whose usual year in setup no run keeps.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { findRun, type LearnedStageRow, listStages } from '#lib/db/learned.ts'
import { listStageRecords } from '#lib/db/stage-record.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { cellRecords } from '#lib/learn/cells.ts'
import { keptStage } from '#lib/learn/kept-stage.ts'
import { learnEach } from '#lib/learn/learn-stages.ts'
import { MODEL_VERSION } from './learn.ts'
import { learnAllArrivals } from './learn-arrivals.ts'
import { inputsDigest, learnedDigest } from './learn-digest.ts'
import { readState } from './network.ts'

export type Reproduced = {
  readonly run: number
  /** Of the method: that which learned it, and that which learned it again. */
  readonly versions: { readonly kept: string; readonly again: string }
  readonly areRecordsSame: boolean
  /** Cells of which any number differs. */
  readonly otherKeys: readonly string[]
  /** Null where one cell only was learned again. */
  readonly isDigestSame: boolean | null
  /** The cells learned again, by key. */
  readonly again: readonly LearnedStageRow[]
}

/** System: learns a run again, or one cell of it. Failure 'not-found' where that is not kept. */
export async function reproduce(runId: number, key?: string): Promise<Reproduced> {
  const grant = demand(systemActor('reproduce'), 'system.run')
  const run = await findRun(grant, runId)
  if (run === undefined) throw new Failure('not-found')
  const kept = (await listStages(grant, runId)).sort((a, b) => (a.key < b.key ? -1 : 1))
  if (key !== undefined && kept.every(stage => stage.key !== key)) throw new Failure('not-found')
  const { asOf, learnedAt, revision, planWeight, seed } = run
  const { state, trade } = await readState(learnedAt)
  const rows = await listStageRecords(grant, learnedAt, revision)
  const records = cellRecords(kept, rows, state.zone, asOf)
  const again: LearnedStageRow[] = []
  const otherKeys: string[] = []
  const left = kept.values()
  for (const learned of learnEach(records, asOf, planWeight)) {
    const cell = learned === null ? undefined : left.next().value
    if (learned === null || cell === undefined || (key !== undefined && cell.key !== key)) continue
    const stage = keptStage(cell, learned, asOf, planWeight, seed)
    again.push(stage)
    if (!isSame(cell, stage)) otherKeys.push(cell.key)
  }
  const digest = async () =>
    learnedDigest(again, await learnAllArrivals(grant, { now: learnedAt, asOf, revision, state, trade }))
  return {
    run: runId,
    versions: { kept: run.modelVersion, again: MODEL_VERSION },
    areRecordsSame: inputsDigest(records) === run.inputsDigest,
    otherKeys,
    isDigestSame: key === undefined ? (await digest()) === run.digest : null,
    again,
  }
}

/** No rows: whether all that two values hold is the same to the last bit. */
function isSame(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || a === null || typeof b !== 'object' || b === null) return Object.is(a, b)
  const [kept, again] = [Object.entries(a), new Map<string, unknown>(Object.entries(b))]
  return kept.length === again.size && kept.every(([field, value]) => isSame(value, again.get(field)))
}
