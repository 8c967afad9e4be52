import { setTimeout as pause } from 'node:timers/promises'
import { beforeAll, describe, expect, it } from 'vitest'
import { startTicker, tick } from '#lib/service/ticker.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'

const { pool } = database

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  client.release()
})

async function put(count: number, lapsesAt: Date): Promise<void> {
  await pool.query(
    `insert into ask (casualty_id, centre_id, state, put_at, lapses_at)
     select 1, 2, 'put', $2::timestamptz - interval '1 hour', $2 from generate_series(1, $1::int)`,
    [count, lapsesAt],
  )
}

async function counts(): Promise<unknown> {
  const { rows } = await pool.query(
    `select (select count(*)::int from ask where state = 'put') as put,
            (select count(*)::int from ask where state = 'unanswered') as unanswered,
            (select count(*)::int from audit where action = 'ask.lapse') as noted`,
  )
  return rows[0]
}

describe('a beat', () => {
  it('lapses what is due at its instant and nothing else, more than one claim of it', async () => {
    await put(45, hours(1))
    await put(3, hours(5))
    expect(await tick(NOON)).toEqual({ holds: 0, asks: 0, late: 0, moves: 0, seasons: 0, told: 0 })
    expect(await tick(hours(1))).toEqual({ holds: 0, asks: 45, late: 0, moves: 0, seasons: 0, told: 0 })
    expect(await counts()).toEqual({ put: 3, unanswered: 45, noted: 45 })
  })

  it('does each thing once though several processes beat together', async () => {
    await put(100, hours(2))
    const beats = await Promise.all([tick(hours(2)), tick(hours(2)), tick(hours(2)), tick(hours(2))])
    expect(beats.reduce((sum, { asks }) => sum + asks, 0)).toBe(100)
    expect(await counts()).toEqual({ put: 3, unanswered: 145, noted: 145 })
  })
})

describe('the ticker', () => {
  it('goes on after a fault, and stops when told', async () => {
    const faults: unknown[] = []
    let beats = 0
    const now = async () => {
      beats += 1
      if (beats === 1) throw new Error('the database is away')
      return hours(9)
    }
    const stop = startTicker({ now, onFault: fault => faults.push(fault), everyMs: 20 })
    await expect.poll(counts).toEqual({ put: 0, unanswered: 148, noted: 148 })
    await stop()
    const atStop = beats
    await pause(80)
    expect([faults.length, beats]).toEqual([1, atStop])
  })
})
