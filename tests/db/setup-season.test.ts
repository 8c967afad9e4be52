/** Seasons of species in setup: added, changed over the version that was read, switched off; each binds from then on. */
import { beforeAll, expect, it } from 'vitest'
import type { PersonActor, Role } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listSeasons as listBinding } from '#lib/db/season.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { addSeason, changeSeason, getSeason, listSeasons, switchSeason } from '#lib/service/setup/season.ts'
import { failureWords } from '#lib/words/failure.ts'
import { database } from '#tests/support/database.ts'
import { makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'
import { seasonTyped } from '#tests/support/setup-forms.ts'

const { pool } = database
const as = (role: Role): PersonActor => ({ kind: 'person', personId: 1, name: 'One', roles: [{ role }] })
const manager = as('manager')
const coordinator = as('coordinator')
const KESTREL = { species: 'kestrel', kind: 'migration' } as const
const ROBIN = { species: 'robin', kind: 'hibernation' } as const
const grant = demand(systemActor('test'), 'casualty.read')
const failed = (work: Promise<unknown>): Promise<Failure> =>
  work.then(
    () => expect.unreachable('it was not refused'),
    (thrown: Failure) => thrown,
  )

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

it('is added once by whoever may, with its source, and binds the species', async () => {
  expect(await addSeason(manager, seasonTyped, NOON)).toEqual(KESTREL)
  expect(await listBinding(grant, 'kestrel')).toEqual([
    { kind: 'migration', opens: '04-01', closes: '09-15', grams: null, mark: 'CP', note: 'to the coast' },
  ])
  expect((await failed(addSeason(manager, seasonTyped, NOON))).rule).toBe('season-there-already')
  expect((await failed(addSeason(coordinator, seasonTyped, NOON))).code).toBe('forbidden')
  expect((await failed(addSeason(manager, { ...seasonTyped, species: 'phoenix' }, NOON))).code).toBe(
    'not-found',
  )
  expect((await listSeasons(coordinator)).map(({ name }) => name)).toEqual(['Blackbird', 'Kestrel'])
})

it('asks for days of the year, and for a weight before winter and for no other season', async () => {
  const { problems } = await failed(
    addSeason(manager, { ...seasonTyped, opens: '02-30', closes: '9-15' }, NOON),
  )
  expect(problems.map(({ field }) => field)).toEqual(['opens', 'closes'])
  const winter = { ...seasonTyped, ...ROBIN, opens: '11-01', closes: '03-20' }
  const light = await failed(addSeason(manager, winter, NOON))
  expect([light.field, failureWords(light).say]).toEqual([
    'grams',
    'A season of hibernation says under which weight an animal is overwintered, others say none',
  ])
  expect(
    (await failed(addSeason(manager, { ...seasonTyped, species: 'robin', grams: '20' }, NOON))).field,
  ).toBe('grams')
  await addSeason(manager, { ...winter, grams: '20,5' }, NOON)
  expect(await listBinding(grant, 'robin')).toMatchObject([{ grams: 20.5, opens: '11-01', closes: '03-20' }])
})

it('is changed over the version that was read, and becomes ours where no other source is named', async () => {
  const read = await getSeason(coordinator, KESTREL)
  const change = { ...seasonTyped, version: String(read.version) }
  await changeSeason(manager, KESTREL, { ...change, note: 'in company' }, NOON)
  expect(await getSeason(coordinator, KESTREL)).toMatchObject({ mark: 'CP', note: 'in company', version: 2 })
  const late = await failed(changeSeason(manager, KESTREL, { ...change, closes: '09-30' }, NOON))
  expect([late.code, late.data['version']]).toEqual(['conflict', 2])
  await changeSeason(manager, KESTREL, { ...change, closes: '09-30', version: '2' }, NOON)
  expect(await getSeason(coordinator, KESTREL)).toMatchObject({ mark: 'ours', closes: '09-30', version: 3 })
  await changeSeason(manager, KESTREL, { ...change, closes: '09-20', mark: 'R:S2', version: '3' }, NOON)
  expect(await getSeason(coordinator, KESTREL)).toMatchObject({ mark: 'R:S2', closes: '09-20' })
  expect((await failed(changeSeason(coordinator, KESTREL, change, NOON))).code).toBe('forbidden')
})

it('binds nobody while it is switched off, and is kept', async () => {
  const { version } = await getSeason(manager, KESTREL)
  await switchSeason(manager, KESTREL, { version: String(version), isActive: 'off' }, NOON)
  expect(await listBinding(grant, 'kestrel')).toEqual([])
  expect((await listSeasons(manager)).map(({ name, isActive }) => [name, isActive])).toEqual([
    ['Blackbird', true],
    ['Robin', true],
    ['Kestrel', false],
  ])
  const again = { version: String(version), isActive: 'on' }
  expect((await failed(switchSeason(manager, KESTREL, again, NOON))).code).toBe('conflict')
  await switchSeason(manager, KESTREL, { ...again, version: String(version + 1) }, NOON)
  expect(await listBinding(grant, 'kestrel')).toHaveLength(1)
  const { rows } = await pool.query(
    "select action, subject_id, columns from audit where subject = 'season' order by id desc limit 2",
  )
  expect(rows.map(row => row.action)).toEqual(['switched on', 'switched off'])
  expect(rows[0]).toMatchObject({ subject_id: 'kestrel.migration', columns: ['is_active'] })
})
