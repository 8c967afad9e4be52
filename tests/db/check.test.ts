import { beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listDisplaced } from '#lib/db/check.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { bookDeparture } from '#lib/service/hold.ts'
import { recordCheck, recordReady, recordStageMoved } from '#lib/service/record-stay.ts'
import { recordSurgery, takeBackSurgery } from '#lib/service/surgery.ts'
import { database } from '#tests/support/database.ts'
import { hold, hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const [BIRD, NEXT_IN, WANTS_AVIARY, OPERATED] = [13, 18, 23, 28]
const [CAGE, OTHER_CAGE, AVIARY] = [1, 2, 5]
const DAY = 24
const coordinator = {
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [{ role: 'coordinator' }],
} as const

const rows = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows
const one = async (text: string, values: unknown[] = []) => (await rows(text, values))[0]

async function givePlan(animal: number): Promise<void> {
  const estimate = (stage: string) => ({
    stage,
    ready: { kind: 'length', length: { medianDays: 30, p90Days: 50 } },
    shares: { onward: 0.9, died: 0.05, euthanased: 0.04, left: 0.01 },
    died: { medianDays: 2, p90Days: 31 },
    euthanased: { medianDays: 2, p90Days: 31 },
  })
  const { id } = await one(
    `insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because) values (1, $1, 1, '{p1}', 'x') returning id`,
    [animal],
  )
  const stages = [
    ['restricted activity', 'hospital-cage'],
    ['unlimited activity', 'flight-aviary'],
  ] as const
  for (const [at, [stage, housing]] of stages.entries()) {
    await pool.query(
      `insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
       values ($1, $2, $3, $4, $5, '{"lengths":"R:S47"}')`,
      [id, at + 1, stage, housing, JSON.stringify(estimate(stage))],
    )
  }
}

async function giveCheck(animal: number, slug: string, more: Record<string, unknown> = {}): Promise<number> {
  const check = {
    casualty_id: animal,
    stage_no: 1,
    check_slug: slug,
    what: 'x',
    who: 'vet',
    mark: 'R:S62',
    required_for: 'next stage',
    ...more,
  }
  const { id } = await one(
    `insert into check_due overriding user value select (jsonb_populate_record(null::check_due, $1)).* returning id`,
    [JSON.stringify(check)],
  )
  return id
}

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  for (const [animal, enclosure] of [
    [BIRD, CAGE],
    [OPERATED, OTHER_CAGE],
  ] as const) {
    await record(
      client,
      { casualty_id: animal, since: hours(-10 * DAY), keeper: 'centre', enclosure_id: enclosure },
      NOON,
    )
    await givePlan(animal)
    await recordStageMoved(coordinator, animal, { stageNo: 1, at: hours(-10 * DAY) }, NOON)
  }
  client.release()
})

describe('a radiograph without union, three weeks more', () => {
  it('is one entry that moves stages, checks and places, and names every promise that gives way', async () => {
    const client = await pool.connect()
    await bookDeparture(coordinator, BIRD, { leavesAt: hours(10 * DAY) }, NOON)
    await record(client, { casualty_id: NEXT_IN, since: hours(-1), keeper: 'finder' })
    const later = { expires: hours(60 * DAY) }
    const next = await hold(client, { casualty: NEXT_IN, enclosure: CAGE, starts: hours(11 * DAY), ...later })
    const own = await hold(client, {
      casualty: BIRD,
      enclosure: AVIARY,
      starts: hours(10 * DAY),
      ends: hours(20 * DAY),
      ...later,
    })
    client.release()
    const check = await giveCheck(BIRD, 'radiograph', { interval_days: 14, due_on: '2026-06-10' })
    const fixator = await giveCheck(BIRD, 'fixator-off', { due_on: '2026-06-12' })
    const after = await giveCheck(BIRD, 'weigh', {
      stage_no: 2,
      due_on: '2026-07-05',
      counted_from: '2026-06-30',
    })
    await recordReady(coordinator, BIRD, { stageNo: 1 }, NOON)

    const { broken } = await recordCheck(
      coordinator,
      check,
      { found: 'not united', moreDays: '21', result: 'Callus soft' },
      hours(1),
    )

    // The cage is wanted by another from 21 June, when this bird was to leave: it stays until 11 July instead.
    expect(broken).toMatchObject([{ claimId: next, enclosure: 'E1' }])
    const grant = demand(systemActor('test'), 'system.run')
    const gone = await listDisplaced(grant as never, BIRD)
    expect(
      gone.map(({ reference, how, isItself, isOpen }) => ({ reference, how, isItself, isOpen })),
    ).toEqual([
      { reference: 'test 13', how: 'moved', isItself: true, isOpen: false },
      { reference: `test ${NEXT_IN}`, how: 'broken', isItself: false, isOpen: true },
    ])
    expect(await one('select starts_at, ends_at, state from claim where id = $1', [own])).toEqual({
      starts_at: hours(31 * DAY),
      ends_at: hours(41 * DAY),
      state: 'live',
    })
    expect(await one(`select at from departure where casualty_id = $1 and state = 'booked'`, [BIRD])).toEqual(
      { at: hours(31 * DAY) },
    )

    const days = Object.fromEntries(
      (
        await rows('select id, due_on::text from check_due where casualty_id = $1 and done_at is null', [
          BIRD,
        ])
      ).map(row => [row.id, row.due_on]),
    )
    // Began on 31 May; 30 days and 21 more lead to 21 July, and its first weighing five days after that.
    expect(days[after]).toBe('2026-07-26')
    expect(days[fixator]).toBe('2026-07-01')
    expect(Object.values(days)).toContain('2026-07-01')

    const versions = await rows(
      `select p.version_no, p.because, s.estimate -> 'ready' -> 'length' as length, s.estimate ->> 'leastDays' as least,
              s.marks ->> 'lengths' as mark
         from casualty_plan p join casualty_stage s on s.casualty_plan_id = p.id and s.stage_no = 1
        where p.casualty_id = $1 order by 1`,
      [BIRD],
    )
    expect(versions).toEqual([
      { version_no: 1, because: 'x', length: { p90Days: 50, medianDays: 30 }, least: null, mark: 'R:S47' },
      {
        version_no: 2,
        because: 'Radiograph: bone not united, 21 days longer. Callus soft',
        length: { p90Days: 71, medianDays: 51 },
        least: '31',
        mark: 'revised',
      },
    ])
    // Ready was said before: that stays readable, and it does not hold any more.
    const ready = `select count(*)::int as lines, count(*) filter (where not is_void and not exists (
       select from stage_fact z where z.supersedes = f.id))::int as holding
       from stage_fact f where casualty_id = $1 and kind = 'ready'`
    expect(await one(ready, [BIRD])).toEqual({ lines: 2, holding: 0 })
  })

  it('breaks its own place where that is wanted by another later, and refuses nothing', async () => {
    const client = await pool.connect()
    const wanted = { casualty: WANTS_AVIARY, enclosure: AVIARY, expires: hours(90 * DAY) }
    const other = await hold(client, { ...wanted, starts: hours(45 * DAY), ends: hours(50 * DAY) }, hours(2))
    client.release()
    const [check] = await rows(
      `select id from check_due where casualty_id = $1 and check_slug = 'radiograph' and done_at is null`,
      [BIRD],
    )
    const { broken } = await recordCheck(
      coordinator,
      check.id,
      { found: 'partly united', moreDays: 10 },
      hours(3),
    )
    expect(broken).toMatchObject([{ casualtyId: BIRD, enclosure: 'E5' }])
    expect(await one('select state from claim where id = $1', [other])).toEqual({ state: 'live' })
  })

  it('without a number of days moves nothing and is looked at again', async () => {
    const [check] = await rows(
      `select id from check_due where casualty_id = $1 and check_slug = 'radiograph' and done_at is null`,
      [BIRD],
    )
    await recordCheck(coordinator, check.id, { found: 'not united' }, hours(4))
    expect(
      await one('select max(version_no) as versions from casualty_plan where casualty_id = $1', [BIRD]),
    ).toEqual({
      versions: 3,
    })
    expect(
      await one(
        `select due_on::text from check_due where casualty_id = $1 and check_slug = 'radiograph' and done_at is null`,
        [BIRD],
      ),
    ).toEqual({ due_on: '2026-06-24' })
  })
})

describe('an operation', () => {
  const implants = () =>
    rows('select kind, state, signed_by from implant_now where casualty_id = $1 order by id', [OPERATED])

  it('moves what is counted from it and says what is left in the animal', async () => {
    const off = await giveCheck(OPERATED, 'fixator-off', {
      anchor: 'surgery',
      due_on: '2026-06-21',
      counted_from: '2026-05-31',
    })
    const said = {
      side: 'left',
      what: 'Ulna pinned',
      implants: ['pin', 'external fixator'],
      at: hours(-5 * DAY),
    }
    await recordSurgery(coordinator, OPERATED, said, NOON)
    // 21 days after 5 June; it began on 31 May, so nobody goes on before day 26.
    expect(await one('select due_on::text, counted_from from check_due where id = $1', [off])).toEqual({
      due_on: '2026-06-26',
      counted_from: null,
    })
    const [stage] = await rows(
      `select s.estimate ->> 'leastDays' as least, s.marks ->> 'lengths' as mark from casualty_plan p
         join casualty_stage s on s.casualty_plan_id = p.id and s.stage_no = 1
        where p.casualty_id = $1 order by version_no desc`,
      [OPERATED],
    )
    expect(stage).toEqual({ least: '26', mark: 'R:S47' })
    expect((await implants()).map(({ state }) => state)).toEqual(['in place', 'in place'])
    await recordCheck(coordinator, off, { found: 'off' }, hours(1))
    expect((await implants()).map(({ state }) => state)).toEqual(['in place', 'out'])
  })

  it('needs the name of the vet who signs that a pin stays', async () => {
    const pin = await giveCheck(OPERATED, 'pin-out')
    const unsigned = await recordCheck(coordinator, pin, { found: 'signed to stay' }, hours(2)).catch(
      (thrown: unknown) => thrown,
    )
    expect(isFailure(unsigned) && unsigned.problems).toEqual([
      { field: 'signedBy', reason: 'signature-names-the-vet' },
    ])
    await recordCheck(coordinator, pin, { found: 'signed to stay', signedBy: 'Dr Thessaly' }, hours(2))
    expect(await implants()).toEqual([
      { kind: 'pin', state: 'signed to stay', signed_by: 'Dr Thessaly' },
      { kind: 'external fixator', state: 'out', signed_by: null },
    ])
  })

  it('that never was is taken back with what it left, once', async () => {
    const { made } = await recordSurgery(
      coordinator,
      OPERATED,
      { side: 'no side', what: 'x', implants: 'wire' },
      hours(3),
    )
    expect(await implants()).toHaveLength(3)
    await takeBackSurgery(coordinator, OPERATED, { surgeryId: made }, hours(4))
    expect(await implants()).toHaveLength(2)
    const again = await takeBackSurgery(coordinator, OPERATED, { surgeryId: made }, hours(5)).catch(
      (thrown: unknown) => thrown,
    )
    expect(isFailure(again) && again.code).toBe('conflict')
  })
})
