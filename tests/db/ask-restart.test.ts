/**
 * Processes that ask in turn are killed at random moments and started again; what each ask went through is counted from
 * the database afterwards, step by step.
 */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { setTimeout as pause } from 'node:timers/promises'
import { expect, it } from 'vitest'
import { seededRandom } from '#lib/numerics/random.ts'
import { type Row, tableOf } from '#tests/bench/rows.ts'
import { decideAndAsk, LAPSE, makeAskWorld, minutes } from '#tests/support/ask-world.ts'
import { database } from '#tests/support/database.ts'

const IS_FULL = process.env['ROOSTWRIGHT_FULL'] === '1'
const RESTARTS = IS_FULL ? 50 : 5
const ASKS = IS_FULL ? 200 : 40
const SEED = 20_261_130
/** A process is killed after so many more steps at most, and a moment later: in the middle of its work. */
const STEPS_ALIVE_MAX = 12
const MOMENT_MS_MAX = 60
/** North's first contact to its second, to South, to East's standing offer. */
const STEPS = 3
const MINUTES_MAX = IS_FULL ? 20 : 3

const { pool } = database

async function startBeating(): Promise<ChildProcess> {
  const child = spawn(
    process.execPath,
    ['--conditions=react-server', '--import', 'tsx', 'tests/support/ask-beats.ts'],
    { env: process.env, stdio: ['ignore', 'pipe', 'inherit'] },
  )
  const ended = once(child, 'exit').then(() => {
    throw new Error('the process ended before its first beat')
  })
  await Promise.race([once(child.stdout!, 'data'), ended])
  ended.catch(() => undefined)
  return child
}

async function kill(child: ChildProcess): Promise<void> {
  const ended = once(child, 'exit')
  child.kill('SIGKILL')
  await ended
}

async function count(sql: string): Promise<number> {
  const { rows } = await pool.query<{ n: number }>(sql)
  return rows[0]?.n ?? 0
}

const setClock = (at: Date) => pool.query('update test_clock set at = $1', [at])
const stepsDone = () => count(`select count(*)::int as n from audit where action = 'ask.lapse'`)

it(
  'loses no step and doubles none, however often it is killed',
  async () => {
    const client = await pool.connect()
    const animals = await makeAskWorld(client, ASKS)
    await client.query('insert into test_clock values (1, $1)', [minutes(0)])
    client.release()
    for (const id of animals) await decideAndAsk(id)

    const random = seededRandom(SEED)
    let [round, kills, midWork] = [1, 0, 0]
    await setClock(minutes(LAPSE))
    while (kills < RESTARTS) {
      const child = await startBeating()
      const until = Math.min(round * ASKS, (await stepsDone()) + Math.floor(random() * STEPS_ALIVE_MAX))
      while ((await stepsDone()) < until) await pause(5)
      await pause(random() * MOMENT_MS_MAX)
      await kill(child)
      kills++
      const done = await stepsDone()
      if (done > (round - 1) * ASKS && done < round * ASKS) midWork++
      // The next wave of asks is due once this one is through: there is always work to be killed in.
      if (done === round * ASKS && round < STEPS) await setClock(minutes(++round * LAPSE))
    }
    const last = await startBeating()
    try {
      for (; round <= STEPS; round++) {
        await setClock(minutes(round * LAPSE))
        await expect.poll(stepsDone, { timeout: 120_000, interval: 100 }).toBe(round * ASKS)
      }
    } finally {
      await kill(last)
    }

    const rows: Row[] = [
      row('restarts', kills, RESTARTS),
      row('killed in the middle of a wave', midWork, null),
      row('steps taken', await stepsDone(), STEPS * ASKS),
      row('people rung', await count('select count(*)::int as n from ask_try'), STEPS * ASKS),
      row(
        'asks that fell silent',
        await count(`select count(*)::int as n from ask where state = 'unanswered'`),
        2 * ASKS,
      ),
      row(
        'asks agreed by a standing offer',
        await count(`select count(*)::int as n from ask where state = 'yes'`),
        ASKS,
      ),
      row('asks left waiting', await count(`select count(*)::int as n from ask where state = 'put'`), 0),
      row('mails queued', await count('select count(*)::int as n from outbox'), ASKS),
      row('places kept now', await held('live', 3), ASKS),
      row('places that ran out with silence', await held('expired', 1, 2), 2 * ASKS),
      row('plans that name the last centre', await lastPlans(), ASKS),
    ]
    process.stdout.write(`${tableOf(rows)}\n`)
    expect(rows.filter(one => !one.holds)).toEqual([])
    expect(midWork).toBeGreaterThan(RESTARTS / 2)
  },
  MINUTES_MAX * 60_000,
)

function held(state: string, ...centres: readonly number[]): Promise<number> {
  return count(
    `select count(*)::int as n from claim k join enclosure e on e.id = k.enclosure_id
      where k.kind = 'hold' and k.state = '${state}' and e.centre_id in (${centres.join(', ')})`,
  )
}

function lastPlans(): Promise<number> {
  return count(
    `select count(*)::int as n from casualty_plan p join casualty_stage s on s.casualty_plan_id = p.id
      where s.centre_id = 3 and p.version_no = 3`,
  )
}

function row(name: string, measured: number, bar: number | null): Row {
  return {
    name,
    measured: String(measured),
    bar: bar === null ? '' : String(bar),
    holds: bar === null || measured === bar,
  }
}
