/**
 * What other sessions of the database tell when they commit: one listening connection a process.
 * Promise: a lost connection is opened again by itself, and says that something may have been missed. A message is a
 * noun and a number (migration 0011), never a word of anybody's.
 */
import 'server-only'
import pg from 'pg'
import type { Grant } from '#lib/authz/demand.ts'
import { env } from '#lib/env.ts'

const CHANNEL = 'roostwright'
const AGAIN_MS_MIN = 250
const AGAIN_MS_MAX = 5000

export type Told = { readonly noun: string; readonly id: string }

export type Listening = {
  readonly onTold: (told: Told) => void
  /** The connection is back: what was told meanwhile is not known. */
  readonly onMissed: () => void
  readonly onFault: (thrown: unknown) => void
}

/** Listens until the function it gives back is called. */
export function listen(
  _grant: Grant<'system.run'>,
  { onTold, onMissed, onFault }: Listening,
): () => Promise<void> {
  let client: pg.Client | undefined
  let again: ReturnType<typeof setTimeout> | undefined
  let waits = AGAIN_MS_MIN
  let isStopped = false
  let wasLost = false

  async function connect(): Promise<void> {
    const mine = new pg.Client({ connectionString: env().DATABASE_URL, keepAlive: true })
    client = mine
    mine.on('notification', ({ payload = '' }) => onTold(readTold(payload)))
    mine.on('error', thrown => lose(mine, thrown))
    mine.on('end', () => lose(mine, undefined))
    try {
      await mine.connect()
      await mine.query(`listen ${CHANNEL}`)
      waits = AGAIN_MS_MIN
      if (wasLost) onMissed()
      wasLost = false
    } catch (thrown) {
      lose(mine, thrown)
    }
  }

  function lose(lost: pg.Client, thrown: unknown): void {
    if (isStopped || lost !== client) return
    if (thrown !== undefined && !wasLost) onFault(thrown)
    client = undefined
    wasLost = true
    lost.end().catch(() => undefined)
    again = setTimeout(connect, waits)
    again.unref()
    waits = Math.min(waits * 2, AGAIN_MS_MAX)
  }

  void connect()
  return async () => {
    isStopped = true
    clearTimeout(again)
    await client?.end().catch(() => undefined)
  }
}

function readTold(payload: string): Told {
  const [noun = '', ...id] = payload.split(':')
  return { noun, id: id.join(':') }
}
