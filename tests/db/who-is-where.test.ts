/**
 * Who is where, the card and the Round over real rows: filters, order, scope, flags, and what a fact changes in them.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { readCasualty } from '#lib/service/casualty.ts'
import { recordArrivalOfCard, reviseChanged } from '#lib/service/casualty-change.ts'
import { countCentre } from '#lib/service/closure.ts'
import { holdPlace } from '#lib/service/hold.ts'
import { recordArrived, recordMoved, recordOutcome, recordUndone } from '#lib/service/record.ts'
import { recordReady, recordStageMoved } from '#lib/service/record-stay.ts'
import { listRounds, readRound } from '#lib/service/round.ts'
import { exportWhoIsWhere, listWhoIsWhere } from '#lib/service/who-is-where.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { PEOPLE_AND_POLICY } from '#tests/support/stay-world.ts'

const { pool } = database
const NORTH = 1
const SOUTH = 2
/** Blackbirds 5 and 10, song thrush 6, kestrels 3 and 8. */
const [IN, ALSO_IN, KESTREL, EXPECTED] = [10, 6, 8, 5] as const
const [E1, E7] = [1, 7] as const

const person = (role: PersonActor['roles'][number]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [role],
})
const coordinator = person({ role: 'coordinator' })
const carer = (centreId: number) => person({ role: 'carer', centreId })
const vet = person({ role: 'vet', practiceId: 1 })

const estimate = {
  stage: 'restricted activity',
  ready: { kind: 'length', length: { medianDays: 6, p90Days: 14 } },
  shares: { onward: 0.9, died: 0.05, euthanased: 0.04, left: 0.01 },
  died: { medianDays: 2, p90Days: 31 },
  euthanased: { medianDays: 2, p90Days: 31 },
}

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(PEOPLE_AND_POLICY)
  for (const casualty of [IN, ALSO_IN, KESTREL, EXPECTED]) {
    await client.query(
      `with p as (insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
         values (1, $1, 1, '{p1}', 'x') returning id)
       insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
       select id, no, (array['restricted activity', 'limited activity'])[no],
              (array['hospital-cage', 'sheltered-aviary'])[no],
              jsonb_set($2::jsonb, '{stage}', to_jsonb((array['restricted activity', 'limited activity'])[no])),
              '{"lengths":"CP"}' from p, generate_series(1, 2) no`,
      [casualty, JSON.stringify(estimate)],
    )
  }
  client.release()
  await recordArrived(coordinator, IN, { centreId: NORTH, enclosureId: E1 }, NOON)
  await recordArrived(coordinator, ALSO_IN, { centreId: NORTH, enclosureId: E1 }, NOON)
  await recordArrived(coordinator, KESTREL, { centreId: SOUTH, enclosureId: E7 }, NOON)
  await recordMoved(coordinator, EXPECTED, { to: 'finder' }, NOON)
  await holdPlace(
    coordinator,
    EXPECTED,
    { enclosureId: 8, placeNo: 1, startsAt: hours(1), needsIsolation: 'no' },
    NOON,
  )
  for (const casualty of [IN, ALSO_IN, KESTREL]) {
    await recordStageMoved(coordinator, casualty, { stageNo: 1 }, NOON)
  }
})

async function refused(work: Promise<unknown>): Promise<Failure> {
  const thrown = await work.then(
    () => undefined,
    (failure: unknown) => failure,
  )
  expect(thrown).toBeInstanceOf(Failure)
  return thrown as Failure
}
const listed = async (query: object, actor = coordinator, at = hours(1)) =>
  (await listWhoIsWhere(actor, query, at)).rows.map(row => row.reference)

describe('who is where', () => {
  it('is everybody in care, by place', async () => {
    expect(await listed({})).toEqual(['test 6', 'test 10', 'test 8', 'test 5'])
    expect(await listed({ order: 'reference', down: 'yes' })).toEqual([
      'test 10',
      'test 8',
      'test 6',
      'test 5',
    ])
    expect(await listed({ order: 'until' })).toHaveLength(4)
  })

  it('is filtered by centre, kind, stage and letters', async () => {
    expect(await listed({ centre: '2' })).toEqual(['test 8', 'test 5'])
    expect(await listed({ group: 'falcons' })).toEqual(['test 8'])
    expect(await listed({ stage: 'restricted activity' })).toHaveLength(4)
    expect(await listed({ text: 'kest' })).toEqual(['test 8'])
    expect(await listed({ text: '%' })).toEqual([])
    expect(await listed({ show: 'on the way' })).toEqual(['test 5'])
  })

  it('is only own centres to a carer, with whom is expected there, and only own cases to a vet', async () => {
    expect(await listed({}, carer(SOUTH))).toEqual(['test 8', 'test 5'])
    expect(await listed({ centre: '1' }, carer(SOUTH))).toEqual([])
    expect(await listed({}, vet)).toEqual([])
    await recordMoved(coordinator, 13, { to: 'practice', practiceId: 1 }, hours(-1))
    expect(await listed({}, vet)).toEqual(['test 13'])
    expect(await listed({ show: 'on the way' })).toEqual(['test 5', 'test 13'])
    expect(
      (await refused(exportWhoIsWhere(carer(SOUTH), { show: 'in care', order: 'place', down: false }, NOON)))
        .code,
    ).toBe('forbidden')
  })

  it('counts pages in the database and goes out whole', async () => {
    const second = await listWhoIsWhere(coordinator, { page: '2' }, hours(1))
    expect([second.total, second.rows.length]).toEqual([5, 0])
    const { csv } = await exportWhoIsWhere(
      coordinator,
      { show: 'in care', order: 'place', down: false },
      hours(1),
    )
    expect(csv.trim().split('\r\n')).toHaveLength(6)
  })
})

describe('the card of an animal', () => {
  it('is not there for people whom it does not concern', async () => {
    expect((await refused(readCasualty(carer(SOUTH), 'test 10', {}, NOON))).code).toBe('not-found')
    expect((await refused(readCasualty(coordinator, 'nobody 1', {}, NOON))).code).toBe('not-found')
    expect((await refused(readCasualty(vet, 'test 10', {}, NOON))).code).toBe('not-found')
  })

  it('shows its stay, and places that fit before those that do not', async () => {
    const card = await readCasualty(carer(NORTH), 'test 10', {}, hours(1))
    expect(card.ribbon?.stages.map(one => one.stage)).toEqual(['restricted activity', 'limited activity'])
    expect(card.stageNow?.stage.no).toBe(1)
    const states = card.places?.choices.map(one => one.state) ?? []
    expect(states).toEqual([...states].sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b)))
    expect(card.places?.choices.find(one => one.name === 'E4')?.misfits[0]).toEqual({
      rule: 'kept for isolation',
    })
    const elsewhere = await readCasualty(carer(NORTH), 'test 10', { to: String(SOUTH) }, hours(1))
    expect(elsewhere.places?.choices).toEqual([])
  })

  it('flags a fact that leaves it without a proper place, and names the promise that broke', async () => {
    await recordMoved(coordinator, KESTREL, { enclosureId: 6 }, hours(2))
    const { now } = await readCasualty(coordinator, 'test 8', {}, hours(2))
    expect(now.short).toBe('not-stocked')
    expect(await listed({ show: 'short' }, coordinator, hours(2))).toEqual(['test 8'])
    await recordMoved(coordinator, KESTREL, { enclosureId: 8 }, hours(3))
    const { broken } = await readCasualty(coordinator, 'test 8', {}, hours(3))
    expect(broken).toEqual([{ reference: 'test 5', enclosure: 'E8' }])
  })

  it('goes on by two facts: ready, then the next stage', async () => {
    await recordReady(coordinator, IN, { stageNo: 1 }, hours(3))
    expect(await listed({ show: 'ready' }, coordinator, hours(3))).toEqual(['test 10'])
    await recordStageMoved(coordinator, IN, { stageNo: 2 }, hours(4))
    await recordReady(coordinator, IN, { stageNo: 2 }, hours(5))
    expect(await listed({ show: 'ready' }, coordinator, hours(5))).toEqual([])
    expect(await listed({ show: 'fit' }, coordinator, hours(5))).toEqual(['test 10'])
    const { ribbon } = await readCasualty(coordinator, 'test 10', {}, hours(5))
    expect(ribbon?.stages.map(one => one.chance)).toEqual([undefined, expect.any(Number)])
  })

  it('revises only what was changed', async () => {
    const row = { stageNo: '1', medianDays: '6', p90Days: '14', wasMedian: '6', wasP90: '14' }
    const same = { because: 'x', stages: [row, { ...row, stageNo: '2' }] }
    expect((await refused(reviseChanged(coordinator, ALSO_IN, same, hours(5)))).rule).toBe('nothing-revised')
    const short = { because: 'x', stages: [{ ...row, medianDays: '20' }] }
    expect((await refused(reviseChanged(coordinator, ALSO_IN, short, hours(5)))).field).toBe(
      'stages.0.p90Days',
    )
    const longer = { because: 'no union', stages: [row, { ...row, stageNo: '2', medianDays: '9,5' }] }
    await reviseChanged(coordinator, ALSO_IN, longer, hours(5))
    const { plan } = await readCasualty(coordinator, 'test 6', {}, hours(5))
    expect(plan?.stages.map(stage => stage.lengthsMark)).toEqual(['CP', 'revised'])
  })

  it('stays with whoever had it last, so that an outcome can be taken back', async () => {
    const ended = { alive: 'alive', whereNow: 'in the wild' }
    const { made } = await recordOutcome(carer(NORTH), ALSO_IN, ended, hours(6))
    const card = await readCasualty(carer(NORTH), 'test 6', {}, hours(6))
    expect([card.now.outcome, card.places]).toEqual(['released', undefined])
    expect((await refused(readCasualty(carer(SOUTH), 'test 6', {}, hours(6)))).code).toBe('not-found')
    expect(await listed({ show: 'gone' }, coordinator, hours(6))).toEqual(['test 6'])
    await recordUndone(carer(NORTH), ALSO_IN, made, hours(7))
    expect((await readCasualty(carer(NORTH), 'test 6', {}, hours(7))).now.keeper).toBe('centre')
  })
})

const ORDER = ['free', 'in use', 'does not fit']

describe('the Round', () => {
  it('has everybody at the centre once, in walking order', async () => {
    await recordArrivalOfCard(coordinator, EXPECTED, { centreId: String(NORTH), enclosureId: '' }, hours(8))
    const { stageNow } = await readCasualty(coordinator, 'test 5', {}, hours(8))
    expect(stageNow).toMatchObject({ stage: { no: 1 }, beganOn: expect.any(Number) })
    const round = await readRound(carer(NORTH), NORTH, hours(8))
    const inside = round.rooms.flatMap(room => room.enclosures.flatMap(one => one.inside))
    expect(round.rooms.map(room => room.name)).toEqual(['Ward', 'Isolation', 'Yard'])
    expect([...inside, ...round.nowhere].map(one => one.reference).sort()).toEqual([
      'test 10',
      'test 5',
      'test 6',
    ])
    expect(round.nowhere.map(one => one.short)).toEqual(['no-enclosure'])
    expect(round.counts.inside).toBe(3)
  })

  it('counts a centre in one tap', async () => {
    await countCentre(carer(NORTH), NORTH, hours(8))
    expect((await readRound(carer(NORTH), NORTH, hours(8))).centre.countedAt).toEqual(hours(8))
  })

  it('is not there for carers of other centres; each has her own', async () => {
    expect((await refused(readRound(carer(SOUTH), NORTH, hours(8)))).code).toBe('not-found')
    expect((await listRounds(carer(SOUTH))).map(one => one.name)).toEqual(['South'])
    expect((await listRounds(coordinator)).map(one => one.name)).toEqual(['North', 'South'])
  })
})
