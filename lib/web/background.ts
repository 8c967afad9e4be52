/**
 * What runs in each process beside its pages: the ticker, mail, the note of where each request comes from, and the
 * listener once a page follows it.
 * Promise: begins once a process; on the signal to stop, no new beat begins and every event stream ends.
 */
import 'server-only'
import { env } from '#lib/env.ts'
import { deliverDueMail } from '#lib/outbox/deliver.ts'
import { smtpSend } from '#lib/outbox/smtp.ts'
import { logFault } from '#lib/service/log.ts'
import { startTicker } from '#lib/service/ticker.ts'
import { notePeers } from './address.ts'
import { readNow } from './clock.ts'
import { stopLive } from './live.ts'

const kept = globalThis as { roostwrightBackground?: () => Promise<void> }

/** Starts the background; says at once what is wrong with the surroundings. */
export function startBackground(): void {
  if (kept.roostwrightBackground !== undefined) return
  env()
  notePeers()
  const stopTimers = startTicker({ now: readNow, onFault: logFault })
  const stopMail = startMail()
  const stop = async () => {
    await Promise.all([stopTimers(), stopMail()])
  }
  kept.roostwrightBackground = stop
  for (const signal of ['SIGTERM', 'SIGINT'] as const) {
    process.once(signal, () => {
      void stop()
      // A server waits for its open answers, and an event stream never ends by itself.
      void stopLive()
    })
  }
}

/** A slow mail server holds up no timer: mail has a beat of its own. */
function startMail(): () => Promise<void> {
  const send = smtpSend()
  if (send === undefined) return async () => {}
  return startTicker({ now: readNow, onFault: logFault, work: at => deliverDueMail(send, at) })
}
