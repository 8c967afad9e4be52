import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor, Role } from '#lib/authz/actor.ts'
import { orderWord } from '#lib/domain/walking-order.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import {
  addCentre,
  changeCentre,
  getCentreForm,
  listCentres,
  switchCentre,
} from '#lib/service/setup/centre.ts'
import { getClosure, listClosures, planClosure } from '#lib/service/setup/closure.ts'
import { addEnclosure, changeEnclosure, getEnclosureForm } from '#lib/service/setup/enclosure.ts'
import {
  addPerson,
  changePassword,
  changePerson,
  getPersonForm,
  switchPerson,
} from '#lib/service/setup/person.ts'
import { switchPractice } from '#lib/service/setup/practice.ts'
import { addRoom, getRoom, switchRoom } from '#lib/service/setup/room.ts'
import { changeWalk, getWalk } from '#lib/service/setup/walk.ts'
import { checkSignIn, findActor } from '#lib/service/sign-in.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'
import { fields, refusal } from '#tests/support/refusal.ts'
import { centreTyped, enclosureTyped, personTyped } from '#tests/support/setup-forms.ts'

const { pool } = database
const as = (...roles: Role[]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: roles.map(role => ({ role })),
})
const FROM_DESK = { address: '203.0.113.7', now: NOON, isDemo: false }
const administrator = as('administrator')
const coordinator = as('coordinator')

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

async function value<T>(sql: string, ...values: unknown[]): Promise<T> {
  const { rows } = await pool.query(sql, values)
  return Object.values(rows[0] ?? {})[0] as T
}
const revision = () => value<number>('select revision from network')
async function enclosureForm(id: number) {
  const { enclosure } = await getEnclosureForm(administrator, id)
  const { stocking, ...rest } = enclosure!
  return {
    ...Object.fromEntries(Object.entries(rest).map(([key, one]) => [key, String(one)])),
    features: rest.features,
    stocking: Object.fromEntries(stocking.map(row => [row.company, String(row.places)])),
  }
}

describe('a centre', () => {
  it('is added with hours, groups and offers, in one entry that names columns and moves the revision', async () => {
    const before = await revision()
    const id = await addCentre(administrator, centreTyped, NOON)
    const { centre } = await getCentreForm(coordinator, id)
    expect(centre).toMatchObject({
      name: 'West',
      latitude: 54.2,
      hours: [
        { weekday: 1, opensMinute: 480, closesMinute: 1080 },
        { weekday: 6, opensMinute: 1320, closesMinute: 1440 },
      ],
      takes: ['small-birds'],
      offers: [{ group: 'small-birds', places: 2 }],
      version: 1,
    })
    expect(await revision()).toBe(before + 1)
    const { rows } = await pool.query(
      "select action, subject, subject_id, person_id, 'name' = any (columns) as named from audit order by id desc limit 1",
    )
    expect(rows).toEqual([
      { action: 'added', subject: 'centre', subject_id: String(id), person_id: 1, named: true },
    ])
  })

  it('is complained about by field, at the line as the form shows it', async () => {
    const typed = {
      ...centreTyped,
      name: ' ',
      latitude: 'north',
      nightDoor: 'on-call',
      hours: [
        { weekday: '', opensMinute: '', closesMinute: '' },
        { weekday: '1', opensMinute: '18:00', closesMinute: '8' },
      ],
    }
    expect(await fields(addCentre(administrator, typed, NOON))).toEqual([
      'name: missing',
      'latitude: not-number',
      'hours.1.closesMinute: not-time',
    ])
    const twice = { ...centreTyped, hours: [centreTyped.hours[0], centreTyped.hours[0]] }
    expect(await fields(addCentre(administrator, twice, NOON))).toEqual([
      'hours: centre_hours_not_overlapping',
    ])
    expect(await refusal(addCentre(administrator, { ...centreTyped, name: 'North' }, NOON))).toBe(
      'rule centre_name_once',
    )
  })

  it('is changed over the version that was read, and else the newest version is told', async () => {
    const id = await addCentre(administrator, { ...centreTyped, name: 'East' }, NOON)
    await changeCentre(administrator, id, { ...centreTyped, name: 'Far east', version: '1', takes: [] }, NOON)
    expect((await getCentreForm(administrator, id)).centre).toMatchObject({ version: 2, takes: [] })
    const late = changeCentre(administrator, id, { ...centreTyped, name: 'Late', version: '1' }, NOON)
    await expect(late).rejects.toMatchObject({ code: 'conflict', data: { version: 2 } })
    expect((await getCentreForm(administrator, id)).centre?.name).toBe('Far east')
    expect(await refusal(changeCentre(administrator, 9999, { ...centreTyped, version: '1' }, NOON))).toBe(
      'not-found',
    )
  })

  it('stays on while it keeps animals, and says which', async () => {
    const { rows } = await pool.query(
      `select c.reference, false as promised from whereabouts w join casualty c on c.id = w.casualty_id
        where w.centre_id = 2 and w.until is null
       union all
       select c.reference, true from claim k join casualty c on c.id = k.casualty_id
         join enclosure e on e.id = k.enclosure_id
        where e.centre_id = 2 and k.kind = 'hold' and k.state = 'live' and k.expires_at > $1`,
      [NOON],
    )
    expect(rows.some(row => row.promised) && rows.some(row => !row.promised)).toBe(true)
    const thrown: Failure = await switchCentre(
      administrator,
      2,
      { version: '1', isActive: 'off' },
      NOON,
    ).then(
      () => Promise.reject(new Error('switched off')),
      one => one,
    )
    expect(thrown.data?.['say']).toMatch(
      /^This stays switched on: \d+ animals? (is|are) here; places? (is|are) kept for \d+$/,
    )
    const named = thrown.data?.['inTheWay'] as { reference: string; say: string }[]
    expect(
      named.map(({ reference, say }) => `${reference} ${say.startsWith('a place is kept in ')}`).sort(),
    ).toEqual(rows.map(row => `${row.reference} ${row.promised}`).sort())
    const empty = await addCentre(administrator, { ...centreTyped, name: 'Empty' }, NOON)
    const asked = await pool.query(
      `insert into ask (casualty_id, centre_id, state, put_at, lapses_at)
       values (22, $1, 'put', $2, $2::timestamptz + interval '1 hour') returning id`,
      [empty, NOON],
    )
    expect(await refusal(switchCentre(administrator, empty, { version: '1', isActive: 'off' }, NOON))).toBe(
      'rule occupied This stays switched on: 1 ask awaits its answer',
    )
    await pool.query(`update ask set state = 'taken-back' where id = $1`, [asked.rows[0].id])
    await switchCentre(administrator, empty, { version: '1', isActive: 'off' }, NOON)
    const { isActive } = (await listCentres(administrator, NOON)).find(row => row.id === empty)!
    expect(isActive).toBe(false)
  })

  it('is changed by administrators only, and seen by those who may read setup', async () => {
    for (const role of ['coordinator', 'carer', 'vet', 'manager'] as const) {
      expect(await refusal(addCentre(as(role), centreTyped, NOON))).toBe('forbidden')
    }
    expect(await refusal(listCentres(as('carer'), NOON))).toBe('forbidden')
    expect((await listCentres(coordinator, NOON)).length).toBeGreaterThan(1)
  })
})

describe('an enclosure', () => {
  it('is added to the centre of its room, a nought counting as none', async () => {
    const id = await addEnclosure(administrator, enclosureTyped, NOON)
    expect((await getEnclosureForm(administrator, id)).enclosure).toMatchObject({
      centreId: 2,
      lengthM: 1.5,
      features: ['pool', 'heat lamp'],
      stocking: [
        { company: 'kestrels', places: 1 },
        { company: 'thrushes', places: 2 },
      ],
    })
  })

  it('changes its housing once all have left, and the stays of the past keep what they were in', async () => {
    await recordArrived(coordinator, 21, { since: NOON, centreId: 1, enclosureId: 3, placeNo: 2 }, NOON)
    await recordMoved(coordinator, 21, { since: hours(1), to: 'finder' }, hours(1))
    const form = await enclosureForm(3)
    await changeEnclosure(administrator, 3, { ...form, housingType: 'indoor-pen', stocking: {} }, hours(3))
    const claims =
      "select housing_type from claim where enclosure_id = 3 and kind = 'stay' and state = 'live'"
    expect(await value(claims)).toBe('hospital-cage')
    expect(await value('select housing_type from enclosure where id = 3')).toBe('indoor-pen')
  })
})

describe('a room', () => {
  it('belongs to a centre and is switched off', async () => {
    const typed = { name: 'Loft', kind: 'ward', walkingOrder: '5', predatorsApart: 'on', centreId: '2' }
    const id = await addRoom(administrator, typed, NOON)
    expect(await getRoom(coordinator, id)).toMatchObject({ centre: 'South', predatorsApart: true })
    await switchRoom(administrator, id, { version: '1', isActive: 'off' }, NOON)
    expect(await getRoom(coordinator, id)).toMatchObject({ isActive: false, version: 2 })
  })
})

describe('a closure', () => {
  it('is planned by the network clock and listed until it is over', async () => {
    const typed = { enclosureId: '6', startsAt: '2026-06-11T08:00', endsAt: '', reason: 'netting' }
    const { id, broken } = await planClosure(as('manager'), typed, NOON)
    expect(broken).toBe(0)
    expect(await getClosure(coordinator, id, NOON)).toMatchObject({
      state: 'planned',
      closure: { startsAt: new Date('2026-06-11T07:00:00Z'), endsAt: null },
      inside: [],
    })
    expect((await getClosure(coordinator, id, hours(48))).state).toBe('closed')
    const { open } = await listClosures(coordinator, NOON)
    expect(open.map(row => row.id)).toContain(id)
    expect(await fields(planClosure(administrator, { ...typed, enclosureId: '' }, NOON))).toEqual([
      'enclosureId: missing',
    ])
    expect(await refusal(planClosure(coordinator, typed, NOON))).toBe('forbidden')
  })
})

describe('a practice', () => {
  it('stays on while it keeps an animal', async () => {
    await recordMoved(coordinator, 22, { since: NOON, to: 'practice', practiceId: 1 }, NOON)
    expect(await refusal(switchPractice(administrator, 1, { version: '1', isActive: 'off' }, NOON))).toBe(
      'rule occupied This stays switched on: 1 animal is here',
    )
  })
})

describe('a person', () => {
  const password = 'seven grey herons'

  it('signs in with the first password, has her roles, and is out after a new one', async () => {
    const id = await addPerson(administrator, { ...personTyped, newPassword: password }, NOON)
    const session = await checkSignIn({ email: 'nell@example.org', password }, FROM_DESK)
    expect(await findActor(id, session.epoch)).toMatchObject({ roles: [{ role: 'carer', centreId: 1 }] })
    await changePassword(administrator, id, { version: '1', newPassword: 'nine white swans' }, NOON)
    expect(await findActor(id, session.epoch)).toBeUndefined()
    expect(await refusal(checkSignIn({ email: 'nell@example.org', password }, FROM_DESK))).toBe(
      'rule sign-in-unknown',
    )
    const anew = await checkSignIn({ email: 'nell@example.org', password: 'nine white swans' }, FROM_DESK)
    expect(anew.epoch).toBe(2)
    const { rows } = await pool.query("select * from audit where subject = 'person'")
    expect(JSON.stringify(rows)).not.toMatch(/herons|swans|argon/)
  })

  it('is refused without a place for her role, or with an e-mail that is taken', async () => {
    const typed = { ...personTyped, newPassword: password }
    expect(await refusal(addPerson(administrator, typed, NOON))).toBe('rule person_email_once')
    const lost = { ...typed, roles: [{ role: 'vet', centreId: '1', practiceId: '' }] }
    expect(await fields(addPerson(administrator, lost, NOON))).toEqual([
      'roles.0.role: person_role_names_its_place',
    ])
    expect(await fields(addPerson(administrator, { ...typed, newPassword: 'short' }, NOON))).toEqual([
      'newPassword: too-short',
    ])
    expect(await refusal(addPerson(as('manager'), typed, NOON))).toBe('forbidden')
  })

  it('stays while she is the last who can set people up', async () => {
    const admin = { ...personTyped, email: 'admin@example.org', roles: [{ role: 'administrator' }] }
    const id = await addPerson(administrator, { ...admin, newPassword: password }, NOON)
    expect(await refusal(switchPerson(administrator, id, { version: '1', isActive: 'off' }, NOON))).toBe(
      'rule last-administrator',
    )
    const less = { ...admin, roles: [{ role: 'manager' }], version: '1' }
    expect(await refusal(changePerson(administrator, id, less, NOON))).toBe('rule last-administrator')
    const second = { ...admin, email: 'second@example.org', newPassword: password }
    await addPerson(administrator, second, NOON)
    await switchPerson(administrator, id, { version: '1', isActive: 'off' }, NOON)
    expect((await getPersonForm(administrator, id)).person).toMatchObject({ isActive: false, version: 2 })
  })
})

describe('the walking order', () => {
  const names = async () => (await getWalk(coordinator, 1)).rooms.map(room => room.name)
  const seen = async () => {
    const { rooms } = await getWalk(coordinator, 1)
    const ids = (stops: readonly { readonly id: number }[]) => stops.map(one => one.id)
    return [
      orderWord('room', ids(rooms)),
      ...rooms.map(room => orderWord('enclosure', ids(room.enclosures))),
    ].join(' ')
  }

  it('goes a step at a time, for rooms and within a room', async () => {
    expect((await names()).slice(0, 3)).toEqual(['Ward', 'Isolation', 'Yard'])
    await changeWalk(administrator, 1, { step: 'room.2.earlier', seen: await seen() }, NOON)
    expect((await names()).slice(0, 3)).toEqual(['Isolation', 'Ward', 'Yard'])
    await changeWalk(administrator, 1, { step: 'enclosure.6.earlier', seen: await seen() }, NOON)
    const yard = (await getWalk(coordinator, 1)).rooms.find(room => room.name === 'Yard')
    expect(yard?.enclosures.map(one => one.id).slice(0, 2)).toEqual([6, 5])
  })

  it('moves nothing over an order that somebody changed meanwhile', async () => {
    const before = await seen()
    await changeWalk(administrator, 1, { step: 'room.2.later', seen: before }, NOON)
    const now = await names()
    expect(await refusal(changeWalk(administrator, 1, { step: 'room.2.later', seen: before }, NOON))).toBe(
      'conflict',
    )
    expect(await names()).toEqual(now)
    expect(await refusal(changeWalk(as('manager'), 1, { step: 'room.2.later', seen: before }, NOON))).toBe(
      'forbidden',
    )
    expect(await refusal(changeWalk(administrator, 1, { step: 'room.7.later', seen: before }, NOON))).toBe(
      'not-found',
    )
  })
})
