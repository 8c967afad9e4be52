/**
 * When learning is due, and learning then: what the worker asks every minute.
 * Promise: one process learns at a time; what a day teaches is learned once it is over, what was entered of earlier days
 * and what setup changed within a quarter of an hour. How far it is stands for pages to read.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { alone } from '#lib/db/alone.ts'
import { endProgress, tellProgress } from '#lib/db/job-progress.ts'
import { findRun } from '#lib/db/learned.ts'
import { isToldSince } from '#lib/db/learning-due.ts'
import { readNetworkFacts } from '#lib/db/network-facts.ts'
import { readRevisions } from '#lib/db/snapshot.ts'
import { dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { learn } from './learn.ts'

/** The job's name, by which pages find how far it is. */
export const LEARNING = 'learn'
/** Each run has every process read its forecast anew. */
const PAUSE_MS = 15 * 60_000
/** Steps between two words on how far it is. */
const STEPS_A_WORD = 10

/** System: whether a run would say more than the newest one. False before the network is set up. */
export async function isLearningDue(now: Date): Promise<boolean> {
  const grant = demand(systemActor('learning'), 'system.run')
  const network = await readNetworkFacts(grant).catch(unlessSetUp)
  if (network === undefined) return false
  const run = await findRun(grant)
  const today = dayOfInstant(now, network.zone)
  if (run === undefined || today > run.asOf) return true
  if (now.getTime() - run.learnedAt.getTime() < PAUSE_MS) return false
  const { knowledgeRevision } = await readRevisions(grant)
  // Publishing itself moved it by one.
  if (knowledgeRevision > run.knowledgeRevision + 1) return true
  return isToldSince(grant, run.revision, startOfDay(today, network.zone))
}

/** System: learns where that is due and no other process is at it. The run published, if one was. */
export async function learnWhenDue(
  clock: () => Promise<Date>,
  signal: AbortSignal,
): Promise<number | undefined> {
  const grant = demand(systemActor('learning'), 'system.run')
  return alone(grant, LEARNING, async () => {
    const begunAt = await clock()
    if (!(await isLearningDue(begunAt))) return undefined
    const onStep = async (done: number, outOf: number) => {
      if (done % STEPS_A_WORD !== 0) return
      await tellProgress(grant, LEARNING, { begunAt, toldAt: await clock(), done, outOf })
    }
    try {
      return await learn(begunAt, { onStep, signal })
    } finally {
      await endProgress(grant, LEARNING)
    }
  })
}

function unlessSetUp(thrown: unknown): undefined {
  if (isFailure(thrown) && thrown.rule === 'network-not-set-up') return undefined
  throw thrown
}
