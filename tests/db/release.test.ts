import { beforeAll, describe, expect, it } from 'vitest'
import { Failure } from '#lib/kernel/failure.ts'
import { recordOutcome, recordUndone } from '#lib/service/record.ts'
import { recordCheck, recordReady } from '#lib/service/record-stay.ts'
import { callOff, planRelease, readReleases, recordRelease, recordWaiting } from '#lib/service/release.ts'
import { recordSurgery } from '#lib/service/surgery.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'
import { counted } from '#tests/support/statements.ts'

const { pool } = database
const GROUP = [3, 8, 13, 18, 23] as const
const [, , PINNED] = GROUP
const LONE = 28
const DAY = 24
const person = (role: 'coordinator' | 'manager' | 'carer', centreId?: number) => ({
  kind: 'person' as const,
  personId: 1,
  name: 'One',
  roles: [centreId === undefined ? { role } : { role, centreId }],
})
const coordinator = person('coordinator')

const one = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows[0]
async function failure(work: Promise<unknown>): Promise<Failure> {
  const thrown = await work.then(
    () => undefined,
    (refused: unknown) => refused,
  )
  expect(thrown).toBeInstanceOf(Failure)
  return thrown as Failure
}
const plan = (animals: readonly number[], more: object = {}) => ({
  animals: [...animals],
  at: hours(DAY),
  site: 'Oak by the weir',
  latitude: '54.2178',
  longitude: '-3.0462',
  way: 'soft',
  releaser: 'Odile',
  ...more,
})

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  await client.query(`update species set licence_keys = '{en-schedule-4-keeping}' where slug = 'kestrel'`)
  await client.query(`insert into reference_key (kind, key, meaning, mark) values
    ('licence', 'en-schedule-4-keeping', 'x', 'CP'), ('licence', 'gb-ias-no-release', 'no release here', 'CP')`)
  const estimate = {
    stage: 'unlimited activity',
    ready: { kind: 'length', length: { medianDays: 6, p90Days: 14 } },
    shares: { onward: 0.9, died: 0.05, euthanased: 0.04, left: 0.01 },
    died: { medianDays: 2, p90Days: 31 },
    euthanased: { medianDays: 2, p90Days: 31 },
  }
  for (const animal of [...GROUP, LONE]) {
    await record(client, { casualty_id: animal, since: hours(-20 * DAY), keeper: 'centre', centre_id: 1 })
    await client.query(
      `with p as (insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
         values (1, $1, 1, '{p1}', 'x') returning id)
       insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
       select id, 1, 'unlimited activity', 'flight-aviary', $2, '{}' from p`,
      [animal, JSON.stringify(estimate)],
    )
    await recordReady(coordinator, animal, { stageNo: 1, at: hours(-5 * DAY) }, NOON)
  }
  client.release()
})

describe('the fit who are still here', () => {
  it('are listed with the days they waited, in all and by what for', async () => {
    await recordWaiting(coordinator, GROUP[0], { waitsFor: ['weather', 'driver'] }, NOON)
    await recordWaiting(coordinator, GROUP[1], { waitsFor: 'weather' }, NOON)
    const { fit, placeDays, placeDaysFor } = await readReleases(coordinator, NOON)
    expect(fit).toHaveLength(6)
    // Six animals, fit on 5 June, today is 10 June.
    expect(placeDays).toBe(30)
    expect(Object.fromEntries(placeDaysFor)).toEqual({ weather: 10, driver: 5 })
    expect((await readReleases(person('carer', 2), NOON)).fit).toEqual([])
  })

  it('are not those with a gate open: these are said ready, stand apart, and their days count for nothing', async () => {
    const { rows } = await pool.query(
      `insert into check_due (entry_id, casualty_id, stage_no, check_slug, what, required_for, who, mark)
       select min(id), $1, 1, 'flight-test', 'level flight', 'release', 'carer', 'common practice' from entry returning id`,
      [LONE],
    )
    const { fit, atGate, placeDays } = await readReleases(coordinator, NOON)
    expect([fit.length, placeDays, atGate.map(({ id }) => id)]).toEqual([5, 25, [LONE]])
    await pool.query('delete from check_due where id = $1', [rows[0].id])
  })
})

describe('reading who is fit and what is planned', () => {
  it('asks as many questions for six animals and three planned releases as for one of each', async () => {
    // Everybody but the lone one is not said ready for a moment.
    const others = await pool.query(
      `insert into stage_fact (entry_id, casualty_id, stage_no, kind, at, is_void, supersedes)
       select entry_id, casualty_id, stage_no, kind, at, true, id from stage_fact
        where casualty_id = any ($1) and kind = 'ready' returning casualty_id, at`,
      [[...GROUP]],
    )
    await readReleases(coordinator, NOON)
    const few = await counted(() => readReleases(coordinator, NOON))
    for (const { casualty_id: animal, at } of others.rows) {
      await recordReady(coordinator, animal, { stageNo: 1, at }, NOON)
    }
    const planned = [await planRelease(coordinator, plan([GROUP[0], GROUP[1]]), NOON)]
    planned.push(await planRelease(coordinator, plan([LONE]), NOON))
    const many = await counted(() => readReleases(coordinator, NOON))
    for (const releaseId of planned) await callOff(coordinator, { releaseId }, NOON)
    expect([few.made.fit.length, few.made.planned.length]).toEqual([1, 1])
    expect([many.made.fit.length, many.made.planned.length]).toEqual([6, 3])
    expect(few.statements).toBeGreaterThan(0)
    expect(many.statements).toBe(few.statements)
  })
})

describe('a group of five', () => {
  it('is not planned while a pin is recorded in one of them; it is named, and nothing is written', async () => {
    await recordSurgery(coordinator, PINNED, { side: 'left', what: 'Ulna pinned', implants: 'pin' }, NOON)
    const plans = () => one('select count(*)::int as plans from release')
    const before = await plans()
    const refused = await failure(planRelease(coordinator, plan(GROUP), NOON))
    expect(refused.rule).toBe('release-barred')
    expect(refused.data['say']).toBe('test 13: Pin is recorded in place, and no vet has signed that it stays')
    expect(await plans()).toEqual(before)
  })

  it('leaves as four, with site and ring, in one entry; the fifth stays', async () => {
    const four = GROUP.filter(animal => animal !== PINNED)
    const releaseId = await planRelease(coordinator, plan(four), NOON)
    expect((await failure(planRelease(coordinator, plan([four[0] ?? 0]), NOON))).rule).toBe(
      'release_animal_planned_once',
    )
    expect(
      await one(`select count(*)::int as booked from departure where state = 'booked' and at = $1`, [
        hours(DAY),
      ]),
    ).toEqual({ booked: 4 })
    const went = await recordRelease(
      coordinator,
      {
        releaseId,
        releaser: 'Odile',
        animals: four.map((casualtyId, at) => ({ casualtyId, went: 'yes', ring: `EV ${at}` })),
      },
      hours(DAY),
    )
    expect(went).toBe(4)
    const gone = await one(
      `select count(*)::int as animals, count(distinct k.entry_id)::int as entries, count(distinct a.ring)::int as rings,
              count(*) filter (where k.outcome = 'released' and w.keeper = 'nobody')::int as released
         from release_animal a join keeping k on k.id = a.keeping_id
         join whereabouts w on w.casualty_id = a.casualty_id and w.until is null where a.release_id = $1`,
      [releaseId],
    )
    expect(gone).toEqual({ animals: 4, entries: 1, rings: 4, released: 4 })
    expect((await readReleases(coordinator, hours(DAY))).fit.map(({ id }) => id)).toEqual([PINNED, LONE])
  })

  it('has a place that a manager is told only roughly, since kestrels here are kept secret', async () => {
    const placeFor = async (actor: typeof coordinator) =>
      (await readReleases(actor, hours(DAY))).done.map(({ place }) => place)
    expect(await placeFor(coordinator)).toEqual([
      { words: 'Oak by the weir', at: { latitude: 54.2178, longitude: -3.0462 }, isCoarse: false },
    ])
    expect(await placeFor(person('manager'))).toEqual([
      { words: '', at: { latitude: 54.2, longitude: -3 }, isCoarse: true },
    ])
  })
})

describe('a planned release', () => {
  it('names what came to stand against it since, until it is gone; who died is on it no more', async () => {
    const at = hours(3 * DAY)
    const releaseId = await planRelease(coordinator, plan([LONE], { at }), hours(DAY))
    const planned = async () =>
      (await readReleases(coordinator, hours(DAY))).planned.find(({ id }) => id === releaseId)
    expect((await planned())?.barred).toEqual([])
    const season = { kind: 'migration', opens: '04-01', closes: '06-12', grams: null, mark: 'CP', note: '' }
    await pool.query(
      `insert into species_season (species_slug, kind, opens, closes, mark) values ('kestrel', 'migration', '04-01', '06-12', 'CP')`,
    )
    // Planned for 13 June: within the season today, out of it on its day.
    expect((await planned())?.barred).toEqual([
      { reference: `test ${LONE}`, bars: [{ rule: 'season', season }] },
    ])
    await pool.query(`delete from species_season where species_slug = 'kestrel'`)
    expect((await planned())?.barred).toEqual([])
    const died = { alive: 'dead', whereNow: 'died by itself' }
    const { made } = await recordOutcome(coordinator, LONE, died, hours(DAY))
    expect(await planned()).toBeUndefined()
    const went = { releaseId, releaser: 'Odile', animals: [{ casualtyId: LONE, went: 'yes', ring: '' }] }
    expect((await failure(recordRelease(coordinator, went, hours(DAY)))).rule).toBe('release-over')
    await recordUndone(coordinator, LONE, made, hours(DAY))
    expect((await planned())?.animals.map(({ id }) => id)).toEqual([LONE])
    await callOff(coordinator, { releaseId }, hours(DAY))
  })
})

describe('a release', () => {
  it('that is called off takes its bookings back, once', async () => {
    const releaseId = await planRelease(coordinator, plan([LONE], { at: hours(3 * DAY) }), hours(DAY))
    const booked = () =>
      one(`select count(*)::int as booked from departure where casualty_id = $1 and state = 'booked'`, [LONE])
    expect(await booked()).toEqual({ booked: 1 })
    await callOff(coordinator, { releaseId }, hours(DAY + 1))
    expect(await booked()).toEqual({ booked: 0 })
    expect((await failure(callOff(coordinator, { releaseId }, hours(DAY + 2)))).rule).toBe('release-over')
  })

  it('that happened is saved although the law, a gate and a vet stood against it, and keeps them beside it', async () => {
    await pool.query(`update species set licence_keys = '{gb-ias-no-release}' where slug = 'kestrel'`)
    await pool.query(
      `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, required_for)
       values ($1, 1, 'flight-test', 'level flight', 'carer', 'CP', 'release'), ($1, 1, 'vet-word', 'x', 'vet', 'CP', 'release')`,
      [LONE],
    )
    const { made } = await recordOutcome(
      coordinator,
      LONE,
      { alive: 'alive', whereNow: 'in the wild' },
      hours(2 * DAY),
    )
    const { rows } = await pool.query(
      'select rule from release_against where keeping_id = $1 order by rule',
      [made],
    )
    expect(rows.map(({ rule }) => rule)).toEqual(['gate', 'law', 'vet'])
    expect(await one('select outcome from keeping where id = $1', [made])).toEqual({ outcome: 'released' })
  })

  it('is let through once a vet has signed that the pin stays', async () => {
    await pool.query(`update species set licence_keys = '{}' where slug = 'kestrel'`)
    const { id } = await one(
      `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, required_for)
       values ($1, 1, 'pin-out', 'x', 'vet', 'CP', 'next stage') returning id`,
      [PINNED],
    )
    await recordCheck(coordinator, id, { found: 'signed to stay', signedBy: 'Dr Thessaly' }, hours(2 * DAY))
    const releaseId = await planRelease(coordinator, plan([PINNED], { at: '' }), hours(2 * DAY))
    expect(releaseId).toBeGreaterThan(0)
  })
})
