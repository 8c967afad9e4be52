/**
 * The worker: a process of its own for what takes longer than anybody waits.
 * Promise: computes, and nothing else; pages never wait for it and show what it published. Ended, by whatever signal, it
 * leaves nothing half published, and the next start does what was left. Learning goes before judging, which asks between
 * two days whether learning waits. pg-boss keeps the jobs in a schema of its own.
 */
import PgBoss from 'pg-boss'
import { disconnect } from '#lib/db/client.ts'
import { env } from '#lib/env.ts'
import { findTestInstant } from '#lib/service/clock.ts'
import { isBacktestDue, JUDGING, judgeWhenDue } from '#lib/service/judging.ts'
import { isLearningDue, LEARNING, learnWhenDue } from '#lib/service/learning-due.ts'

const CHECK_MS = 60_000
/** Longer than any job takes: one that was cut off is given up by then. */
const EXPIRES_SECONDS = 1800
/** What is still running is cut off when the process must end. */
const STOP_MS = 1000

export type WorkerParts = {
  readonly onFault: (thrown: unknown) => void
  readonly checkMs?: number
}

/** By priority: what is asked first goes first. */
const QUEUES = [
  { name: LEARNING, isDue: isLearningDue, run: learnWhenDue },
  { name: JUDGING, isDue: isBacktestDue, run: judgeWhenDue },
] as const

/** Starts working; the function it gives back stops it. */
export async function startWorker({
  onFault,
  checkMs = CHECK_MS,
}: WorkerParts): Promise<() => Promise<void>> {
  const stopping = new AbortController()
  // Cut off by a stop, a query says so.
  const onOwnFault = (thrown: unknown) => {
    if (!stopping.signal.aborted) onFault(thrown)
  }
  const boss = new PgBoss({
    connectionString: env().DATABASE_URL,
    application_name: 'roostwright worker',
    max: 4,
  })
  boss.on('error', onOwnFault)
  await boss.start()
  let atWork = 0
  for (const { name, run } of QUEUES) {
    // Short: one job waits at most, however many workers ask for it. None is tried again: the next check asks anew.
    await boss.createQueue(name, { name, policy: 'short', retryLimit: 0, expireInSeconds: EXPIRES_SECONDS })
    await boss.work(name, async () => {
      atWork++
      try {
        await run(readNow, stopping.signal)
      } catch (thrown) {
        if (!stopping.signal.aborted) throw thrown
      } finally {
        atWork--
      }
    })
  }
  const ask = async () => {
    // Busy, this process would not hear the database's answer in time.
    if (atWork > 0) return
    try {
      for (const { name, isDue } of QUEUES) {
        if (!(await isDue(await readNow()))) continue
        await boss.send(name, {})
        return
      }
    } catch (thrown) {
      onOwnFault(thrown)
    }
  }
  await ask()
  const timer = setInterval(ask, checkMs)
  return async () => {
    clearInterval(timer)
    stopping.abort(new Error('the worker was told to stop'))
    await boss.stop({ graceful: true, wait: true, timeout: STOP_MS })
    await disconnect()
  }
}

async function readNow(): Promise<Date> {
  const set = env().ROOSTWRIGHT_TEST_CLOCK ? await findTestInstant() : undefined
  return set ?? new Date()
}
