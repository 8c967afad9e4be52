import { beforeAll, describe, expect, it } from 'vitest'
import { demand } from '#lib/authz/demand.ts'
import { listDeskDue } from '#lib/db/due.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { driveByLink, readDrivePage } from '#lib/service/drive-link.ts'
import { recordArrived, recordOutcome } from '#lib/service/record.ts'
import { readRoadTrouble } from '#lib/service/road.ts'
import { callJourneyOff, giveLegOn, makeLegLink, planJourney, turnBack } from '#lib/service/road-plan.ts'
import { switchDriver } from '#lib/service/setup/driver.ts'
import { tick } from '#lib/service/ticker.ts'
import { database } from '#tests/support/database.ts'
import {
  COORDINATOR,
  legTyped,
  makeRoadWorld,
  minutes,
  NOON,
  NORTH,
  planTwo,
  SOUTH,
  says,
  twoLegs,
} from '#tests/support/road-world.ts'

const { pool } = database
const RACES = 20
let animals: number[] = []

beforeAll(async () => {
  const client = await pool.connect()
  animals = await makeRoadWorld(client, 20 + RACES)
  client.release()
})

/** Animals that no other test has. */
const take = (count = 1) => animals.splice(0, count)
const rows = async (sql: string, ...values: unknown[]) => (await pool.query(sql, values)).rows
const refusal = (work: Promise<unknown>) =>
  work.then(
    () => 'nothing',
    (thrown: Failure) => `${thrown.code} ${thrown.rule ?? ''}`.trim(),
  )
const keepers = (id: number) =>
  rows(
    `select w.keeper, k.driver_id as driver, w.centre_id as centre, w.enclosure_id as enclosure,
            (extract(epoch from w.since - $2::timestamptz) / 60)::int as since,
            (extract(epoch from w.until - $2::timestamptz) / 60)::int as until
       from whereabouts w join keeping k on k.id = w.keeping_id where w.casualty_id = $1 and w.since >= $2 order by w.since, w.keeping_id`,
    id,
    NOON,
  )
const legStates = async (journey: number) =>
  (await rows('select state from leg where journey_id = $1 order by leg_no, id', journey)).map(
    row => row.state,
  )
const holds = async (id: number) =>
  (await rows("select state from claim where casualty_id = $1 and kind = 'hold' order by id", id)).map(
    row => row.state,
  )

/** Instants at which an animal has no keeper or more than one, from noon on: none, by walking every half minute. */
async function wrongInstants(id: number): Promise<number> {
  const [row] = await rows(
    `select count(*)::int as wrong from generate_series($2::timestamptz, $2::timestamptz + interval '5 hours', interval '30 seconds') t
      where (select count(*) from whereabouts w where w.casualty_id = $1 and w.since <= t and (w.until is null or w.until > t)) <> 1`,
    id,
    NOON,
  )
  return row.wrong
}

describe('a journey of two legs', () => {
  it('has one keeper at every instant, and ends in the place that was kept', async () => {
    const [id] = take() as [number]
    const { journey, legs } = await planTwo(pool, [id])
    expect(await holds(id)).toEqual(['live'])
    await says(legs[0], 'have', 5)
    await says(legs[0], 'have', 6)
    await says(legs[0], 'delivered', 55)
    await says(legs[1], 'have', 57)
    await says(legs[1], 'delivered', 118)
    await says(legs[1], 'delivered', 119)
    expect((await keepers(id)).slice(-3)).toEqual([
      { keeper: 'driver', driver: 1, centre: null, enclosure: null, since: 5, until: 55 },
      { keeper: 'driver', driver: 2, centre: null, enclosure: null, since: 55, until: 118 },
      { keeper: 'centre', driver: null, centre: SOUTH, enclosure: 7, since: 118, until: null },
    ])
    expect(await wrongInstants(id)).toBe(0)
    expect(await legStates(journey)).toEqual(['delivered', 'delivered'])
    expect(await holds(id)).toEqual(['taken'])
    expect(
      await rows(
        'select ended_at, (select state from journey_animal where journey_id = id) as state from journey where id = $1',
        journey,
      ),
    ).toEqual([{ ended_at: minutes(118), state: 'arrived' }])
  })

  it('is handed over by the next driver who says so first', async () => {
    const [id] = take() as [number]
    const { journey, legs } = await planTwo(pool, [id])
    await says(legs[0], 'have', 5)
    await says(legs[1], 'have', 50)
    await says(legs[0], 'delivered', 52)
    expect(await legStates(journey)).toEqual(['delivered', 'on the road'])
    expect((await keepers(id)).slice(-2)).toMatchObject([
      { driver: 1, since: 5, until: 50 },
      { driver: 2, since: 50, until: null },
    ])
  })

  it('is followed where the centre records the arrival itself', async () => {
    const [id] = take() as [number]
    const { journey, legs } = await planTwo(pool, [id])
    await says(legs[0], 'have', 5)
    await recordArrived(COORDINATOR, id, { centreId: SOUTH, enclosureId: '8' }, minutes(40))
    expect(await legStates(journey)).toEqual(['delivered', 'called-off'])
    await says(legs[0], 'delivered', 41)
    expect((await keepers(id)).at(-1)).toMatchObject({ keeper: 'centre', enclosure: 8, since: 40 })
  })
})

describe('a death on the road', () => {
  it('closes legs, kept place, checks, link and journey in one commit', async () => {
    const [id, other] = take(2) as [number, number]
    const { journey, legs } = await planTwo(pool, [id, other])
    await pool.query(
      `insert into check_due (casualty_id, stage_no, check_slug, what, due_on, who, mark) values ($1, 1, 'weigh', 'weight', '2026-06-12', 'carer', 'CP')`,
      [id],
    )
    const token = await makeLegLink(COORDINATOR, legs[0], NOON)
    await says(legs[0], 'have', 5)
    await recordOutcome(COORDINATOR, id, { alive: 'dead', whereNow: 'died by itself' }, minutes(20))
    // The other one goes on.
    expect(await legStates(journey)).toEqual(['on the road', 'planned'])
    await recordOutcome(COORDINATOR, other, { alive: 'dead', whereNow: 'died by itself' }, minutes(30))
    expect(await legStates(journey)).toEqual(['called-off', 'called-off'])
    expect(await holds(other)).toEqual(['given-up'])
    expect(await holds(id)).toEqual(['given-up'])
    expect(
      await rows(
        'select count(*)::int as open from check_due where casualty_id = $1 and called_off_at is null',
        id,
      ),
    ).toEqual([{ open: 0 }])
    // One transaction wrote all of it: PostgreSQL marks each row with the one that did.
    expect(
      await rows(
        `select count(distinct x)::int as commits, count(*)::int as written from (
           select xmin::text as x from leg where journey_id = $1
           union all select xmin::text from journey where id = $1
           union all select xmin::text from journey_animal where journey_id = $1 and casualty_id = $2
           union all select xmin::text from claim where casualty_id = $2 and kind = 'hold'
           union all select xmin::text from one_time_link where leg_id = $3 and revoked_at is not null
           union all (select xmin::text from keeping where casualty_id = $2 order by id desc limit 1)) w`,
        journey,
        other,
        legs[0],
      ),
    ).toEqual([{ commits: 1, written: 7 }])
    expect((await readDrivePage(token, minutes(31))).kind).toBe('over')
    expect(await wrongInstants(other)).toBe(0)
  })
})

describe("a leg that can't", () => {
  it('tells the line and keeps the place beyond its hour, until a person gives it to another driver', async () => {
    const [id] = take() as [number]
    const { journey, legs } = await planTwo(pool, [id])
    await says(legs[0], 'have', 5)
    await says(legs[0], 'cant', 20, 'flat tyre at the mill')
    expect((await keepers(id)).at(-1)).toMatchObject({ driver: 1, until: null })
    const due = await listDeskDue(demand(COORDINATOR, 'due.read'), minutes(21))
    expect(due.map(item => item.about)).toContainEqual(
      expect.objectContaining({
        kind: 'leg',
        journeyId: journey,
        trouble: 'cant',
        reason: 'flat tyre at the mill',
      }),
    )
    await tick(minutes(24 * 60))
    expect(await holds(id)).toEqual(['live'])
    await giveLegOn(COORDINATOR, legs[0], legTyped('2', 24 * 60, 25 * 60), minutes(24 * 60))
    expect((await readRoadTrouble(COORDINATOR)).filter(one => one.journey.id === journey)).toEqual([])
    expect(await legStates(journey)).toEqual(['cant', 'planned', 'planned'])
    await callOrKeep(journey)
  })

  /** It has begun, so it can't be called off. */
  async function callOrKeep(journey: number) {
    expect(await refusal(callJourneyOff(COORDINATOR, journey, minutes(24 * 60 + 1)))).toBe(
      'rule journey-begun',
    )
  }
})

describe('a driver who is late', () => {
  it('alarms the line at the minute of the setting, once whichever process sees it', async () => {
    const [id] = take() as [number]
    const { journey, legs } = await planTwo(pool, [id])
    const late = async () =>
      (await readRoadTrouble(COORDINATOR)).filter(one => one.journey.id === journey).length
    const noted = () =>
      rows(
        "select count(*)::int as n from audit where action = 'leg.late' and subject_id = $1",
        String(journey),
      )
    await tick(minutes(29))
    expect(await late()).toBe(0)
    await Promise.all([tick(minutes(30)), tick(minutes(30)), tick(minutes(30))])
    expect(await late()).toBe(1)
    expect(await noted()).toEqual([{ n: 1 }])
    await says(legs[0], 'have', 35)
    expect(await late()).toBe(0)
    await tick(minutes(89))
    expect(await late()).toBe(0)
    await tick(minutes(90))
    expect(await late()).toBe(1)
    expect(await noted()).toEqual([{ n: 2 }])
  })
})

describe('turning back', () => {
  it('frees the place where it went and leads to where it came from', async () => {
    const [id] = take() as [number]
    const { journey, legs } = await planTwo(pool, [id])
    expect(await refusal(turnBack(COORDINATOR, journey, minutes(1)))).toBe('rule journey-not-begun')
    await says(legs[0], 'have', 5)
    await turnBack(COORDINATOR, journey, minutes(20))
    expect(await refusal(turnBack(COORDINATOR, journey, minutes(21)))).toBe('conflict journey-turned-already')
    expect(await holds(id)).toEqual(['given-up'])
    await says(legs[0], 'delivered', 40)
    expect((await keepers(id)).at(-1)).toMatchObject({
      keeper: 'centre',
      centre: NORTH,
      enclosure: 9,
      since: 40,
    })
    expect(await rows('select state from journey_animal where journey_id = $1', journey)).toEqual([
      { state: 'turned-back' },
    ])
  })
})

describe('a plan', () => {
  it('is refused out of order, from two places, twice, to where it is, and under a stop', async () => {
    const [id, other] = take(2) as [number, number]
    const early = { ...twoLegs([id]), legs: [legTyped('1', 0, 60), legTyped('2', 30, 90)] }
    expect(await refusal(planJourney(COORDINATOR, early, NOON))).toBe('invalid')
    expect(
      await refusal(planJourney(COORDINATOR, twoLegs([id], { legs: [legTyped('finder', 0, 60)] }), NOON)),
    ).toBe('rule journey-finder-has-none')
    await recordArrived(COORDINATOR, other, { centreId: SOUTH }, minutes(1))
    expect(await refusal(planJourney(COORDINATOR, twoLegs([id, other]), minutes(2)))).toBe(
      'rule journey-from-one-place',
    )
    expect(await refusal(planJourney(COORDINATOR, twoLegs([id], { to: `centre:${NORTH}` }), NOON))).toBe(
      'invalid journey_goes_elsewhere',
    )
    await planTwo(pool, [id])
    expect(await refusal(planTwo(pool, [id]))).toBe('conflict journey_animal_one_open')
    const [third] = take() as [number]
    await pool.query(
      `insert into movement_stop (centre_id, site_state, starts_at, ends_at, reason) values ($1, 'no-movement', '2026-06-01', '2026-06-30', 'x')`,
      [SOUTH],
    )
    expect(await refusal(planTwo(pool, [third]))).toBe('rule hold_not_at_a_stopped_site')
    await pool.query('delete from movement_stop')
  })

  it('keeps its drivers switched on', async () => {
    const [id] = take() as [number]
    await planTwo(pool, [id])
    const manager = { ...COORDINATOR, roles: [{ role: 'manager' as const }] }
    expect(await refusal(switchDriver(manager, 2, { version: '1', isActive: 'off' }, NOON))).toBe(
      'rule driver-drives',
    )
  })

  it('that nobody began is called off, and can be made anew', async () => {
    const [id] = take() as [number]
    const { journey, legs } = await planTwo(pool, [id])
    const token = await makeLegLink(COORDINATOR, legs[0], NOON)
    await callJourneyOff(COORDINATOR, journey, minutes(1))
    expect(await legStates(journey)).toEqual(['called-off', 'called-off'])
    expect(await refusal(driveByLink(token, { say: 'have' }, minutes(2)))).toBe('taken link-over')
    expect(await holds(id)).toEqual(['live'])
    await planTwo(pool, [id])
  })
})

describe('the link of a leg', () => {
  it('shows its leg until it is delivered, and what was sent twice counts once', async () => {
    const [id] = take() as [number]
    const { legs } = await planTwo(pool, [id])
    const old = await makeLegLink(COORDINATOR, legs[0], NOON)
    const token = await makeLegLink(COORDINATOR, legs[0], NOON)
    expect((await readDrivePage(old, minutes(1))).kind).toBe('over')
    expect(await readDrivePage(token, minutes(1))).toMatchObject({
      kind: 'open',
      leg: { id: legs[0] },
      next: { id: legs[1] },
    })
    await driveByLink(token, { say: 'have' }, minutes(5))
    await driveByLink(token, { say: 'delivered' }, minutes(50))
    await driveByLink(token, { say: 'delivered' }, minutes(51))
    expect((await keepers(id)).slice(-2)).toMatchObject([
      { driver: 1, since: 5, until: 50 },
      { driver: 2, since: 50, until: null },
    ])
    expect(await readDrivePage(token, minutes(52))).toEqual({
      kind: 'delivered',
      phone: '1',
      at: minutes(50),
    })
    expect(await readDrivePage('x'.repeat(43), minutes(52))).toEqual({ kind: 'unknown' })
  })

  it('runs out twelve hours after its leg was due', async () => {
    const [id] = take() as [number]
    const { legs } = await planTwo(pool, [id])
    const token = await makeLegLink(COORDINATOR, legs[0], NOON)
    expect((await readDrivePage(token, minutes(13 * 60 - 1))).kind).toBe('open')
    expect((await readDrivePage(token, minutes(13 * 60))).kind).toBe('over')
    expect(await refusal(driveByLink(token, { say: 'have' }, minutes(13 * 60)))).toBe('taken link-over')
  })
})

describe('two people at once', () => {
  it(`leave one keeper and one end, ${RACES} times: the driver's "delivered" and the carer's arrival`, async () => {
    const racing = animals.slice(-RACES)
    for (const id of racing) {
      const { journey, legs } = await planTwo(pool, [id])
      await says(legs[0], 'have', 5)
      await says(legs[0], 'delivered', 50)
      await Promise.all([
        says(legs[1], 'delivered', 110),
        recordArrived(COORDINATOR, id, { centreId: SOUTH, enclosureId: '8' }, minutes(110)),
      ])
      expect(await wrongInstants(id)).toBe(0)
      expect((await keepers(id)).at(-1)).toMatchObject({ keeper: 'centre', centre: SOUTH, until: null })
      expect(await legStates(journey)).toEqual(['delivered', 'delivered'])
    }
    // A place that was kept beside the one it came into is waited for no longer.
    await tick(minutes(24 * 60))
    for (const id of racing) expect(await holds(id)).not.toContain('live')
  })
})
