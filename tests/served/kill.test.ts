/**
 * The built server and its PostgreSQL, durable as in production, killed by SIGKILL while six people write. What was
 * acknowledged is there, nothing is half done, the next start is clean.
 */
import { setTimeout as wait } from 'node:timers/promises'
import type pg from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { seededRandom } from '#lib/numerics/random.ts'
import { connected } from '#seed/boot/database.mjs'
import { median, must, type Row, tableOf, told } from '#tests/bench/rows.ts'
import { KINDS, Log } from '#tests/support/served/log.ts'
import { Machine, until, type Victim } from '#tests/support/served/machine.ts'
import { PlainBrowser } from '#tests/support/served/plain-browser.ts'
import { PLANTS } from '#tests/support/served/plants.ts'
import {
  claimsThatDiffer,
  countHalf,
  countOne,
  enclosuresSince,
  findThere,
  HALF,
} from '#tests/support/served/whole.ts'
import { work } from '#tests/support/served/writers.ts'

const IS_FULL = process.env['ROOSTWRIGHT_FULL'] === '1'
const KILLS = IS_FULL ? 100 : 10
/** A beat takes five seconds: few of few kills wait for it, all of many. */
const KILLS_A_BEAT = IS_FULL ? 1 : 5
const SEED = Number(process.env['ROOSTWRIGHT_TEST_SEED'] ?? 19_580_611)
const WRITES_MIN = 4
const WRITES_MORE = 12
const MOMENT_MS = 200
const MINUTES_MAX = 55
const NAME = 'kill'
const COORDINATOR = 'marit.sollwyn@roostwright.example'
const CARER = 'odile.brackenray@roostwright.example'
const CENTRE = 'Averbrook Wildlife Hospital'

const random = seededRandom(SEED)
const log = new Log()
const lost: string[] = []
const half: string[] = []
const trouble: string[] = []
const backAfter: number[] = []
const victims: Victim[] = []
let machine: Machine
let coordinator: PlainBrowser
let carer: PlainBrowser
let animals: { id: number; reference: string }[] = []
const kept = new Map<'rings' | 'types', number>()
const underway = new Set<string>()
let firstEntry = 0
let atFirst: ReadonlyMap<string, number> = new Map()
let hitWaiting = 0
let hitPlacing = 0
let cleanStarts = 0
let beats = 0

const records = <T>(use: (client: pg.Client) => Promise<T>) => connected(machine.databaseUrl(NAME), use)

beforeAll(async () => {
  machine = await Machine.begin()
  await machine.fill(NAME)
  await machine.serve(NAME)
  coordinator = new PlainBrowser(() => machine.url(NAME))
  carer = new PlainBrowser(() => machine.url(NAME))
  expect(await coordinator.signIn(COORDINATOR)).toBe(true)
  expect(await carer.signIn(CARER)).toBe(true)
  await records(async client => {
    atFirst = await countHalf(client)
    const entries = await client.query<{ id: number }>('select max(id) as id from entry')
    firstEntry = entries.rows[0]?.id ?? 0
    const { rows } = await client.query<{ id: number; reference: string }>(
      `select c.id, c.reference from whereabouts w join casualty c on c.id = w.casualty_id
         join centre n on n.id = w.centre_id where w.until is null and n.name = $1 order by c.id`,
      [CENTRE],
    )
    animals = rows
  })
  // One animal through all of it, so that each kind was acknowledged and there is something to break.
  await writeUntil(() => log.count('yes', 'outcome recorded') > 0)
  expect(trouble).toEqual([])
}, MINUTES_MAX * 60_000)

afterAll(() => Machine.end(), 60_000)

/** All three in turn, in a drawn order. */
function drawVictims(count: number): Victim[] {
  const drawn: Victim[] = []
  while (drawn.length < count) {
    const three: Victim[] = ['both', 'app', 'database']
    while (three.length > 0) drawn.push(...three.splice(Math.floor(random() * three.length), 1))
  }
  return drawn.slice(0, count)
}

/** Everybody writes; once enough is written, they are stopped, or the blow falls. */
async function writeUntil(isEnough: () => boolean, blow?: () => Promise<void>): Promise<void> {
  const before = machine.said(NAME).length
  let isStopped = false
  const stopped = () => isStopped
  const working = work({ log, coordinator, carer, animals, random, kept, underway, trouble, stopped })
  await until(() => isEnough() || trouble.length > 0)
  if (blow !== undefined) await wait(random() * MOMENT_MS)
  trouble.push(...faultsIn(machine.said(NAME).slice(before)))
  isStopped = true
  await blow?.()
  await working
}

/** What is under way when the blow falls, in turn: a placement, nothing since one was acknowledged, an arrival. */
const AIMS = [
  { kind: 'option taken', isAnswered: false },
  { kind: 'option taken', isAnswered: true },
  { kind: 'arrival recorded', isAnswered: false },
] as const

/** After a drawn number of acknowledged writes and a drawn moment. */
async function writeUntilKilled(victim: Victim, nth: number): Promise<void> {
  const { kind, isAnswered } = AIMS[nth % AIMS.length] ?? AIMS[0]
  const wanted = log.count('yes') + WRITES_MIN + Math.floor(random() * WRITES_MORE)
  const already = log.count('yes', kind)
  const isMoment = () => (isAnswered ? log.count('yes', kind) > already : log.waiting.includes(kind))
  const order = random() < 0.5 ? (['app', 'database'] as const) : (['database', 'app'] as const)
  await writeUntil(
    () => log.count('yes') >= wanted && isMoment(),
    () => {
      hitWaiting += log.waiting.length
      hitPlacing += log.waiting.filter(one => AIMS.some(aim => aim.kind === one)).length
      return machine.kill(NAME, victim === 'both' ? order : [victim])
    },
  )
}

const faultsIn = (said: string) => said.split('\n').filter(line => /"level":"error"|⨯|Unhandled/.test(line))

/** Health, sign-in, and where it is waited for, the ticker. */
async function comeBack(victim: Victim, waitsForBeat: boolean): Promise<void> {
  const since = performance.now()
  await machine.restart(NAME, victim)
  await until(async () => {
    const { status } = await coordinator.get('/api/health').catch(() => ({ status: 0 }))
    return status === 200
  })
  backAfter.push((performance.now() - since) / 1000)
  const signsIn = await new PlainBrowser(() => machine.url(NAME)).signIn(COORDINATOR)
  if (signsIn) cleanStarts++
  if (waitsForBeat && (await beat())) beats++
}

/** A hold that runs out is let go by the ticker: of a place that stood empty, for a minute that is over. */
async function beat(): Promise<boolean> {
  const id = await records(async client => {
    const { rows } = await client.query<{ id: number }>(
      `insert into claim (kind, casualty_id, enclosure_id, place_no, company_slug, company_key, housing_type,
         starts_at, ends_at, expires_at)
       select 'hold', (select max(casualty_id) from claim where kind = 'hold'), e.id, 1, s.company_slug, s.company_slug,
         e.housing_type, now() - interval '2 minutes', now() - interval '1 minute', now()
         from stocking s join enclosure e on e.id = s.enclosure_id join room r on r.id = e.room_id
        where not r.predators_apart and not exists (select from claim where enclosure_id = e.id and state = 'live'
          and tstzrange(starts_at, ends_at) && tstzrange(now() - interval '2 minutes', now()))
        order by e.id limit 1 returning id`,
    )
    return rows[0]?.id
  })
  if (id === undefined) return false
  await until(() =>
    records(async client => {
      const { rows } = await client.query('select state from claim where id = $1', [id])
      return rows[0]?.state === 'expired'
    }),
  )
  return true
}

async function look(nth: number): Promise<void> {
  await records(async client => {
    for (const kind of KINDS) {
      const keys = log.keys('yes', kind)
      const there = await findThere(client, kind, keys)
      lost.push(...keys.filter(key => !there.has(key)).map(key => `kill ${nth}: ${kind} ${key}`))
    }
    for (const [name, count] of await countHalf(client)) {
      const more = count - (atFirst.get(name) ?? 0)
      if (more !== 0) half.push(`kill ${nth}: ${more} ${name}`)
    }
  })
}

/** Of what got no answer, how much is there all the same. */
async function countUnanswered(): Promise<{ there: number; all: number }> {
  return records(async client => {
    let there = 0
    for (const kind of KINDS) there += (await findThere(client, kind, log.keys('nothing', kind))).size
    return { there, all: log.count('nothing') }
  })
}

async function rowsOf(differing: number): Promise<Row[]> {
  const { there, all } = await countUnanswered()
  const of = (victim: Victim) => victims.filter(one => one === victim).length
  const waited = Math.floor(KILLS / KILLS_A_BEAT)
  return [
    told('seed', String(SEED)),
    must('kills', victims.length, String(KILLS), victims.length === KILLS),
    told('of them both, server, database', `${of('both')}, ${of('app')}, ${of('database')}`),
    ...KINDS.map(kind =>
      must(`acknowledged: ${kind}`, log.count('yes', kind), '> 0', log.count('yes', kind) > 0),
    ),
    must('writes under way when the blow fell', hitWaiting, '> 0', hitWaiting > 0),
    told('of them placements and arrivals', String(hitPlacing)),
    told('refused with words', String(log.count('no'))),
    told('without an answer, and there all the same', `${all}, ${there}`),
    must('acknowledged and lost', lost.length, '0', lost.length === 0),
    must('half done', half.length, '0', half.length === 0),
    must('claims that differ from a rebuild', differing, '0', differing === 0),
    must('faults before a blow', trouble.length, '0', trouble.length === 0),
    must('starts that answer and let people in', cleanStarts, String(KILLS), cleanStarts === KILLS),
    must('beats of the ticker waited for', beats, String(waited), beats === waited),
    told(
      'seconds to come back, median and longest',
      `${median(backAfter).toFixed(1)}, ${Math.max(...backAfter).toFixed(1)}`,
    ),
  ]
}

test(
  `${KILLS} kills in the middle of writes lose nothing and leave nothing half done`,
  async () => {
    for (const [nth, victim] of drawVictims(KILLS).entries()) {
      victims.push(victim)
      await writeUntilKilled(victim, nth)
      await comeBack(victim, (nth + 1) % KILLS_A_BEAT === 0)
      await look(nth + 1)
      if (IS_FULL) process.stdout.write(`kill ${nth + 1} of ${KILLS}: ${log.count('yes')} acknowledged\n`)
      expect(trouble).toEqual([])
    }
    const rows = await rowsOf(await records(inVain(claimsOff)))
    process.stdout.write(`\n${tableOf(rows)}\n`)
    expect([...trouble, ...lost, ...half]).toEqual([])
    expect(rows.filter(row => !row.holds)).toEqual([])
  },
  MINUTES_MAX * 60_000,
)

async function claimsOff(client: pg.Client): Promise<number> {
  return claimsThatDiffer(client, await enclosuresSince(client, firstEntry))
}

/** In a transaction that is rolled back. */
function inVain<T>(use: (client: pg.Client) => Promise<T>) {
  return async (client: pg.Client): Promise<T> => {
    await client.query('begin')
    try {
      return await use(client)
    } finally {
      await client.query('rollback')
    }
  }
}

test.each(Object.keys(HALF))('a planted fault is found: %s', async name => {
  const more = await records(
    inVain(async client => {
      const before = await countOne(client, name)
      // Neither keys nor triggers stand in the way of the fault.
      await client.query('set local session_replication_role = replica')
      await client.query(PLANTS[name] ?? '')
      return (await countOne(client, name)) - before
    }),
  )
  expect(more).toBeGreaterThan(0)
})

test('a claim that no fact gives is found', async () => {
  const differing = await records(
    inVain(async client => {
      // A stay from before its enclosure was last settled: what is later, the first step of looking puts right.
      const { rows } = await client.query<{ enclosure: number }>(
        `update claim set starts_at = starts_at + interval '1 minute' where id =
          (select max(c.id) from claim c where c.kind = 'stay' and c.state = 'live' and c.ends_at is null
              and c.starts_at < (select min(e.settled_at) from enclosure e where e.id = any (unit_of(c.enclosure_id)))
                                - interval '1 hour')
          returning enclosure_id as enclosure`,
      )
      const touched = rows.map(({ enclosure }) => enclosure)
      return claimsThatDiffer(client, touched)
    }),
  )
  expect(differing).toBeGreaterThan(0)
})

test('a write that never was is missed', async () => {
  await records(async client => {
    for (const kind of KINDS) {
      const never = kind === 'weight' ? '0|1' : '0'
      expect((await findThere(client, kind, [never])).size, kind).toBe(0)
    }
  })
})
