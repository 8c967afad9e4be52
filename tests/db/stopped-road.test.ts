/** Drives that lead into or out of a place under a movement stop: named to the line and on the journey, decided by nobody. */
import { afterEach, beforeAll, expect, it } from 'vitest'
import { demand } from '#lib/authz/demand.ts'
import { listDeskDue } from '#lib/db/due.ts'
import { setSiteState } from '#lib/service/closure.ts'
import { readJourney, readStoppedRoad } from '#lib/service/road.ts'
import { callJourneyOff, turnBack } from '#lib/service/road-plan.ts'
import { dueWords } from '#lib/words/due.ts'
import { database } from '#tests/support/database.ts'
import {
  COORDINATOR,
  makeRoadWorld,
  minutes,
  NORTH,
  planTwo,
  SOUTH,
  says,
} from '#tests/support/road-world.ts'

const { pool } = database
let animals: number[] = []
const take = (count = 1) => animals.splice(0, count)

beforeAll(async () => {
  const client = await pool.connect()
  animals = await makeRoadWorld(client, 8)
  client.release()
})
afterEach(() => pool.query('delete from movement_stop'))

const owed = async (at: Date) =>
  (await listDeskDue(demand(COORDINATOR, 'due.read'), at)).flatMap(item =>
    item.about.kind === 'stopped-drive' ? [{ at: item.at, ...dueWords(item, 'Europe/London') }] : [],
  )
const stopAt = (centreId: number, state: string, at: Date) =>
  setSiteState(COORDINATOR, centreId, { state, reason: 'suspicion' }, at)

it('a journey that is planned: nobody sets off, the driver is rung, the authority decides', async () => {
  const { journey } = await planTwo(pool, take(2))
  expect(await owed(minutes(5))).toEqual([])
  await stopAt(SOUTH, 'no-movement', minutes(10))
  expect(await owed(minutes(11))).toEqual([
    {
      at: minutes(10),
      what: 'A movement stop stands against a drive: ask 1 and 1 more, Blackbird, to South',
      more: 'Nobody sets off: ring Driver, 306. Office, 2, decides whether the animals may move',
      todo: 'Open the journey',
    },
  ])
  const { stops, journey: shown } = await readJourney(COORDINATOR, journey, minutes(11))
  expect(stops).toMatchObject([
    { centre: 'South', leads: 'in', reason: 'suspicion', driver: 'Driver', phone: '306' },
  ])
  // Nothing was decided: the journey and its legs are as they were.
  expect(shown.endedAt).toBeNull()
  expect(shown.legs.map(({ state }) => state)).toEqual(['planned', 'planned'])
  await callJourneyOff(COORDINATOR, journey, minutes(12))
  expect([await owed(minutes(13)), await readStoppedRoad(COORDINATOR, minutes(13))]).toEqual([[], []])
})

it('one that is on the road names who has the animals; turned back it leads out of the stop, and is named still', async () => {
  const { journey, legs } = await planTwo(pool, take())
  await says(legs[0], 'have', 1)
  await stopAt(SOUTH, 'no-movement', minutes(10))
  const [running] = await owed(minutes(11))
  expect(running?.more).toMatch(/^On the road now: ring Driver, 306\./)
  await turnBack(COORDINATOR, journey, minutes(12))
  expect(
    (await readStoppedRoad(COORDINATOR, minutes(13))).map(({ leads, centre }) => [leads, centre]),
  ).toEqual([['out', 'South']])
  await stopAt(SOUTH, 'open', minutes(14))
  expect(await owed(minutes(15))).toEqual([])
})

it('one that leads out of a place where nothing may move', async () => {
  const { journey } = await planTwo(pool, take())
  await stopAt(NORTH, 'no-movement', minutes(10))
  const stopped = await readStoppedRoad(COORDINATOR, minutes(11))
  expect(stopped.filter(one => one.journeyId === journey)).toMatchObject([{ leads: 'out', centre: 'North' }])
  await callJourneyOff(COORDINATOR, journey, minutes(12))
})

it('a stop that begins before they are there is named beforehand, one that begins later is not', async () => {
  const { journey } = await planTwo(pool, take())
  const plan = (at: Date) =>
    pool.query(
      `insert into movement_stop (centre_id, site_state, starts_at, reason) values ($1, 'no-movement', $2, 'zone')`,
      [SOUTH, at],
    )
  const mine = async () =>
    (await readStoppedRoad(COORDINATOR, minutes(1))).filter(one => one.journeyId === journey)
  // The last leg is due at 14:00 UTC, two hours after noon.
  await plan(minutes(121))
  expect(await mine()).toEqual([])
  await pool.query('delete from movement_stop')
  await plan(minutes(119))
  expect((await mine()).map(({ startsAt }) => startsAt)).toEqual([minutes(119)])
  await callJourneyOff(COORDINATOR, journey, minutes(2))
})

it('says nothing where the stop covers others, or only birds at high risk', async () => {
  const { journey } = await planTwo(pool, take())
  const mine = async (at: Date) =>
    (await readStoppedRoad(COORDINATOR, at)).filter(one => one.journeyId === journey)
  await setSiteState(COORDINATOR, SOUTH, { state: 'no-movement', covers: 'mammal', reason: 'x' }, minutes(1))
  await setSiteState(COORDINATOR, NORTH, { state: 'closed-to-high-risk', reason: 'x' }, minutes(1))
  expect(await mine(minutes(2))).toEqual([])
  await stopAt(SOUTH, 'closed-to-high-risk', minutes(3))
  expect(await mine(minutes(4))).toEqual([])
  await pool.query(`update species_group set is_high_risk_influenza = true where slug = 'small-birds'`)
  // Blackbirds are such birds now: they may not be brought in; that North takes none does not hold them there.
  expect((await mine(minutes(5))).map(({ leads, isWhole }) => [leads, isWhole])).toEqual([['in', false]])
  await callJourneyOff(COORDINATOR, journey, minutes(6))
})
