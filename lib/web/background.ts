/**
 * What runs in each process beside its pages: the ticker, and the listener once a page follows it.
 * Promise: begins once a process; on the signal to stop, no new beat begins and every event stream ends.
 */
import 'server-only'
import { env } from '#lib/env.ts'
import { startTicker } from '#lib/service/ticker.ts'
import { readNow } from './clock.ts'
import { stopLive } from './live.ts'
import { logFault } from './log.ts'

const kept = globalThis as { roostwrightBackground?: () => Promise<void> }

/** Starts the background; says at once what is wrong with the surroundings. */
export function startBackground(): void {
  if (kept.roostwrightBackground !== undefined) return
  env()
  const stop = startTicker({ now: readNow, onFault: logFault })
  kept.roostwrightBackground = stop
  for (const signal of ['SIGTERM', 'SIGINT'] as const) {
    process.once(signal, () => {
      void stop()
      // A server waits for its open answers, and an event stream never ends by itself.
      void stopLive()
    })
  }
}
