/**
 * How far a worker's job has come, told by the worker and shown by pages.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from './client.ts'

export type JobProgress = {
  readonly begunAt: Date
  /** When the worker last said so. */
  readonly toldAt: Date
  readonly done: number
  readonly outOf: number
}

/** Says how far a job is. */
export async function tellProgress(
  _grant: Grant<'system.run'>,
  job: string,
  progress: JobProgress,
): Promise<void> {
  await db().jobProgress.upsert({ where: { job }, create: { job, ...progress }, update: progress })
}

/** The job is over, well or not. */
export async function endProgress(_grant: Grant<'system.run'>, job: string): Promise<void> {
  await db().jobProgress.deleteMany({ where: { job } })
}

/** How far a job is; undefined while none runs. Of a worker that was killed, what it said last. */
export async function findProgress(
  _grant: Grant<'system.run' | 'forecast.read'>,
  job: string,
): Promise<JobProgress | undefined> {
  const row = await db().jobProgress.findUnique({ where: { job }, omit: { job: true } })
  return row ?? undefined
}
