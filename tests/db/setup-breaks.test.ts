import { beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import { changeCentre, getCentreForm } from '#lib/service/setup/centre.ts'
import { changeEnclosure, getEnclosureForm, switchEnclosure } from '#lib/service/setup/enclosure.ts'
import { changeRoom, getRoom, switchRoom } from '#lib/service/setup/room.ts'
import { getStop, liftStop, listStops, planStop } from '#lib/service/setup/stop.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'

/*
 * Changes under animals. Blackbirds are 5, 10, 15, ..., song thrushes 1, 6, 11, ...: one company, thrushes, two to a
 * cage. Kestrels are 3, 8, 13. E7 and E8 stand in a ward that keeps nobody apart; E1 and E2 in one that does.
 */
const { pool } = database
const person: PersonActor = {
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [{ role: 'administrator' }, { role: 'coordinator' }],
}

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query("insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x')")
  client.release()
})

type Asked = { readonly breaks: readonly string[]; readonly confirm: string; readonly say: string }

async function answer(work: Promise<unknown>): Promise<Asked | string> {
  try {
    await work
    return 'made'
  } catch (thrown) {
    const failure = thrown as Failure
    return failure.rule === 'breaks-current'
      ? (failure.data as Asked)
      : `${failure.code} ${failure.rule ?? String(thrown)} ${failure.data?.['say'] ?? ''}`.trim()
  }
}
const asked = async (work: Promise<unknown>) => {
  const said = await answer(work)
  if (typeof said === 'string') throw new Error(said)
  return said
}

async function formOf(id: number) {
  const { enclosure } = await getEnclosureForm(person, id)
  const { stocking, ...rest } = enclosure!
  return {
    ...Object.fromEntries(Object.entries(rest).map(([key, one]) => [key, String(one)])),
    version: String(rest.version),
    features: rest.features,
    stocking: Object.fromEntries(stocking.map(row => [row.company, String(row.places)])) as Record<
      string,
      string
    >,
  }
}
async function roomForm(id: number, predatorsApart: boolean) {
  const { name, kind, walkingOrder, version } = await getRoom(person, id)
  return {
    name,
    kind,
    walkingOrder: String(walkingOrder),
    version: String(version),
    ...(predatorsApart && { predatorsApart: 'on' }),
  }
}

const into = (casualty: number, enclosureId: number, at: Date) =>
  recordArrived(person, casualty, { since: at, centreId: enclosureId < 7 ? 1 : 2, enclosureId }, at)

async function hold(casualty: number, enclosure: number, at: Date): Promise<void> {
  await pool.query('select plan_hold($1, $2, null, $3, null, $4, $5, false, null, $3)', [
    casualty,
    enclosure,
    at,
    hours(1, at),
    hours(9, at),
  ])
}

/** Who stood where with a place at an instant, by what is written now. */
async function picture(at: Date): Promise<unknown[]> {
  const { rows } = await pool.query(
    `select casualty_id, enclosure_id, place_no, company_key, housing_type from claim
      where kind = 'stay' and state = 'live' and starts_at <= $1 and (ends_at is null or ends_at > $1) order by 1`,
    [at],
  )
  return rows
}
const shortAt = async (at: Date) =>
  (
    await pool.query(
      'select casualty_id, because from short where starts_at <= $1 and (ends_at is null or ends_at > $1) order by 1',
      [at],
    )
  ).rows.map(row => `${row.casualty_id} ${row.because}`)

/** Each test has a day of its own, with two thrushes in E7 since its morning. */
let day = 0
let morning = NOON
let noon = NOON
beforeEach(async () => {
  day += 24
  morning = hours(day)
  noon = hours(day + 6)
  await into(5, 7, morning)
  await into(10, 7, morning)
})

describe('a smaller stocking', () => {
  it('names who loses a place, changes nothing until that is confirmed, and leaves the past as it was', async () => {
    await hold(1, 8, noon)
    const past = await picture(hours(3, morning))
    const form = await formOf(7)
    const typed = { ...form, stocking: { ...form.stocking, thrushes: '1' } }
    const { breaks, say, confirm } = await asked(changeEnclosure(person, 7, typed, noon))
    expect(breaks).toEqual(['test 10, in E7, Ward, has no proper place from now on, and is to be moved'])
    expect(say).toBe('With this change 1 animal loses a proper place')
    expect(await picture(noon)).toEqual(past)
    expect((await formOf(7)).version).toBe(form.version)
    expect(await shortAt(noon)).toEqual([])

    expect(await answer(changeEnclosure(person, 7, { ...typed, confirm }, noon))).toBe('made')
    expect(await shortAt(noon)).toEqual(['10 full'])
    expect(await picture(hours(3, morning))).toEqual(past)
    const more = await formOf(7)
    await changeEnclosure(
      person,
      7,
      { ...more, stocking: { ...more.stocking, thrushes: '2' } },
      hours(1, noon),
    )
    expect(await shortAt(hours(1, noon))).toEqual([])
  })

  it('asks again when the network moved meanwhile', async () => {
    const form = await formOf(7)
    const typed = { ...form, stocking: { ...form.stocking, thrushes: '' } }
    const first = await asked(changeEnclosure(person, 7, typed, noon))
    expect(first.breaks).toHaveLength(2)
    await recordMoved(person, 10, { since: noon, to: 'finder' }, noon)
    const second = await asked(changeEnclosure(person, 7, { ...typed, confirm: first.confirm }, noon))
    expect(second.say).toBe('The network has moved since you looked: now 1 animal loses a proper place')
    expect(second.breaks).toHaveLength(1)
    expect(await answer(changeEnclosure(person, 7, { ...typed, confirm: second.confirm }, noon))).toBe('made')
    expect(await shortAt(noon)).toEqual(['5 not-stocked'])
    const back = await formOf(7)
    await changeEnclosure(person, 7, { ...back, stocking: { ...back.stocking, thrushes: '2' } }, noon)
  })

  it('moves a promise within the enclosure before it gives it up', async () => {
    await recordMoved(person, 5, { since: noon, to: 'finder' }, noon)
    await recordMoved(person, 10, { since: noon, to: 'finder' }, noon)
    await pool.query('select plan_hold(11, 7, 2, $1, null, $2, $3, false, null, $1)', [
      noon,
      hours(1, noon),
      hours(9, noon),
    ])
    const form = await formOf(7)
    const smaller = { ...form, stocking: { ...form.stocking, thrushes: '1' } }
    expect(await answer(changeEnclosure(person, 7, smaller, noon))).toBe('made')
    const { rows } = await pool.query(
      "select place_no from claim where casualty_id = 11 and kind = 'hold' and state = 'live'",
    )
    expect(rows).toEqual([{ place_no: 1 }])
    const none = await formOf(7)
    const { breaks, confirm } = await asked(changeEnclosure(person, 7, { ...none, stocking: {} }, noon))
    expect(breaks).toEqual(['The place kept for test 11 in E7, Ward is given up'])
    await changeEnclosure(person, 7, { ...none, stocking: {}, confirm }, noon)
    await changeEnclosure(person, 7, { ...(await formOf(7)), stocking: form.stocking }, noon)
  })
})

describe('other housing', () => {
  it('names who is in it, and past nights keep the housing that they were in', async () => {
    const past = await picture(hours(3, morning))
    const typed = { ...(await formOf(7)), housingType: 'indoor-pen' }
    const { breaks, confirm } = await asked(changeEnclosure(person, 7, typed, noon))
    expect(breaks).toEqual([
      'test 5, in E7, stays where it is, in housing of another kind',
      'test 10, in E7, stays where it is, in housing of another kind',
    ])
    expect(await answer(changeEnclosure(person, 7, { ...typed, confirm }, noon))).toBe('made')
    expect(await picture(hours(3, morning))).toEqual(past)
    expect(await picture(noon)).toMatchObject([
      { housing_type: 'indoor-pen' },
      { housing_type: 'indoor-pen' },
    ])
    const back = { ...(await formOf(7)), housingType: 'hospital-cage' }
    const again = await asked(changeEnclosure(person, 7, back, hours(1, noon)))
    await changeEnclosure(person, 7, { ...back, confirm: again.confirm }, hours(1, noon))
  })

  it('does not take an enclosure with somebody in it to another centre', async () => {
    const typed = { ...(await formOf(7)), roomId: '3' }
    expect(await answer(changeEnclosure(person, 7, typed, noon))).toBe(
      'rule occupied It stays with its centre: test 5 and test 10 are in',
    )
  })
})

describe('switching off', () => {
  it('closes the enclosure from that instant on, and switching on opens it', async () => {
    const past = await picture(hours(3, morning))
    const version = async () => (await formOf(7)).version
    const off = { version: await version(), isActive: 'off' }
    const { confirm, breaks } = await asked(switchEnclosure(person, 7, off, noon))
    expect(breaks).toHaveLength(2)
    expect(await answer(switchEnclosure(person, 7, { ...off, confirm }, noon))).toBe('made')
    expect(await shortAt(noon)).toEqual(['5 closed', '10 closed'])
    expect(await picture(hours(3, morning))).toEqual(past)
    await switchEnclosure(person, 7, { version: await version(), isActive: 'on' }, hours(1, noon))
    expect(await shortAt(hours(1, noon))).toEqual([])
  })

  it('a room asks for all that is in its enclosures', async () => {
    const { version } = await getRoom(person, 4)
    const off = { version: String(version), isActive: 'off' }
    const { confirm, breaks } = await asked(switchRoom(person, 4, off, noon))
    expect(breaks).toHaveLength(2)
    expect(await answer(switchRoom(person, 4, { ...off, confirm }, noon))).toBe('made')
    expect(await shortAt(noon)).toEqual(['5 closed', '10 closed'])
    await switchRoom(person, 4, { version: String(version + 1), isActive: 'on' }, hours(1, noon))
    expect(await shortAt(hours(1, noon))).toEqual([])
  })
})

describe('a room that begins to keep predators and prey apart', () => {
  it('names whoever came last and the promise that would meet the other side', async () => {
    await into(3, 8, hours(1, morning))
    const { breaks, confirm } = await asked(changeRoom(person, 4, await roomForm(4, true), noon))
    expect(breaks).toEqual(['test 3, in E8, Ward, has no proper place from now on, and is to be moved'])
    expect(await answer(changeRoom(person, 4, { ...(await roomForm(4, true)), confirm }, noon))).toBe('made')
    expect(await shortAt(noon)).toEqual(['3 room'])
    expect(await answer(changeRoom(person, 4, await roomForm(4, false), hours(1, noon)))).toBe('made')
    expect(await shortAt(hours(1, noon))).toEqual([])
    await recordMoved(person, 3, { since: hours(2, noon), to: 'finder' }, hours(2, noon))
    await hold(3, 8, hours(2, noon))
    const promised = await asked(changeRoom(person, 4, await roomForm(4, true), hours(2, noon)))
    expect(promised.breaks).toEqual(['The place kept for test 3 in E8, Ward is given up'])
  })
})

describe('a centre that takes less', () => {
  it('names who of that group is there and promised, and gives the promises up', async () => {
    await pool.query("insert into centre_takes values (2, 'small-birds'), (2, 'falcons')")
    await hold(15, 8, noon)
    const { centre } = await getCentreForm(person, 2)
    const typed = {
      name: centre!.name,
      about: '',
      phone: centre!.phone,
      latitude: '53',
      longitude: '-3',
      nightDoor: 'shut',
      version: String(centre!.version),
      takes: ['falcons'],
    }
    const { breaks, confirm } = await asked(changeCentre(person, 2, typed, noon))
    expect(breaks).toEqual([
      'The place kept for test 15 in E8, Ward, South is given up',
      'test 10, in E7, Ward, stays, and nothing more of its kind is offered here',
      'test 5, in E7, Ward, stays, and nothing more of its kind is offered here',
    ])
    expect(await answer(changeCentre(person, 2, { ...typed, confirm }, noon))).toBe('made')
    expect(await shortAt(noon)).toEqual([])
    const { rows } = await pool.query("select state from claim where casualty_id = 15 and kind = 'hold'")
    expect(rows).toEqual([{ state: 'broken' }])
  })
})

describe('a stop', () => {
  const typed = {
    centreId: '2',
    siteState: 'no-movement',
    coversClass: '',
    startsAt: '',
    endsAt: '',
    reason: 'suspicion',
  }
  const stateOf = async (casualty: number) =>
    (
      await pool.query(
        "select state from claim where casualty_id = $1 and kind = 'hold' order by id desc limit 1",
        [casualty],
      )
    ).rows[0]?.state

  it('names the promises into and out of the site, and breaks them once confirmed', async () => {
    await hold(20, 8, noon)
    await recordArrived(person, 25, { since: noon, centreId: 1 }, noon)
    await hold(10, 3, noon)
    const { breaks, confirm } = await asked(planStop(person, typed, noon))
    expect(breaks).toEqual([
      'The place kept for test 10 in E3, Ward, North is given up',
      'The place kept for test 20 in E8, Ward, South is given up',
    ])
    expect(await stateOf(20)).toBe('live')
    const id = Number(await planStop(person, { ...typed, confirm }, noon))
    expect([await stateOf(20), await stateOf(10)]).toEqual(['broken', 'broken'])
    expect(await getStop(person, id, noon)).toMatchObject({ state: 'in force', inside: 2 })
    expect(await answer(planStop(person, typed, hours(1, noon)))).toBe('rule movement_stop_one_at_a_time')
    expect(await liftStop(person, id, hours(2, noon))).toEqual({ hadBegun: true })
    expect(await answer(liftStop(person, id, hours(3, noon)))).toBe('rule stop-over-already')
    expect((await getStop(person, id, hours(2, noon))).state).toBe('over')
  })

  it('that begins later covers what begins in its time, and is gone when it is taken back', async () => {
    await hold(30, 8, noon)
    const later = { ...typed, startsAt: localOf(hours(4, noon)), coversClass: 'mammal' }
    const mammals = await planStop(person, later, noon)
    expect(await stateOf(30)).toBe('live')
    expect(await liftStop(person, mammals, noon)).toEqual({ hadBegun: false })
    expect((await listStops(person, noon)).open.map(row => row.id)).not.toContain(mammals)
    const birds = await asked(planStop(person, { ...later, coversClass: 'bird' }, noon))
    expect(birds.breaks).toEqual(['The place kept for test 30 in E8, Ward, South is given up'])
    const past = { ...typed, startsAt: localOf(hours(-4, noon)) }
    await expect(planStop(person, past, noon)).rejects.toMatchObject({
      problems: [{ field: 'startsAt', reason: 'stop-begins-in-the-past' }],
    })
  })
})

/** As the field of the form is filled in: British summer time. */
function localOf(at: Date): string {
  return hours(1, at).toISOString().slice(0, 16)
}
