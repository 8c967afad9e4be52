import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor, Role } from '#lib/authz/actor.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { addCompany, changeCompany, getCompany, listCompanies } from '#lib/service/setup/company.ts'
import { addCondition, changeCondition, getCondition, switchCondition } from '#lib/service/setup/condition.ts'
import {
  addPlace,
  changePlace,
  exportPlaces,
  importPlaces,
  listPlaces,
  switchPlace,
} from '#lib/service/setup/place.ts'
import { addRule, changeRule, getRule, listRules } from '#lib/service/setup/rule.ts'
import { addSpecies, changeSpecies, getSpeciesForm, listSpecies } from '#lib/service/setup/species.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'
import { refusal } from '#tests/support/refusal.ts'
import { conditionTyped, placeTyped, speciesTyped } from '#tests/support/setup-forms.ts'

const { pool } = database
const as = (...roles: Role[]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: roles.map(role => ({ role })),
})
const administrator = as('administrator')
const manager = as('manager')
const coordinator = as('coordinator')

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

const knowledge = async () => (await pool.query('select knowledge_revision as at from network')).rows[0].at

describe('a company', () => {
  const typed = { slug: 'finches', members: 'Finches of one size', preys: 'prey', mark: 'CP' }

  it('is added once, and read with who is of it and where it is taken', async () => {
    const before = await knowledge()
    expect(await addCompany(administrator, typed, NOON)).toBe('finches')
    expect(await knowledge()).toBeGreaterThan(before)
    expect(await refusal(addCompany(administrator, typed, NOON))).toBe('rule key-there-already')
    const { company, stocked } = await getCompany(coordinator, 'thrushes')
    expect(company.species.map(one => one.name)).toEqual(['Blackbird', 'Song thrush'])
    expect(company.enclosures).toBe(
      (await pool.query("select 1 from stocking where company_slug = 'thrushes'")).rowCount,
    )
    expect(stocked[0]).toMatchObject({ places: 2 })
    expect((await listCompanies(coordinator)).map(one => one.slug)).toContain('finches')
    expect(await refusal(addCompany(manager, typed, NOON))).toBe('forbidden')
  })

  it('is ours once it was changed, and stays on its side while some are in a room that keeps sides apart', async () => {
    await record(pool as never, { casualty_id: 8, since: NOON, keeper: 'centre', enclosure_id: 1 }, NOON)
    const change = (what: object) =>
      changeCompany(
        administrator,
        'kestrels',
        { members: 'x', preys: 'predator', mark: 'test', version: '1', ...what },
        hours(1),
      )
    expect(await refusal(change({ preys: '' }))).toBe(
      'rule occupied The company stays on its side, predator or prey: test 8 is in; a place is kept for test 3',
    )
    await change({ members: 'Kestrels' })
    expect((await getCompany(coordinator, 'kestrels')).company).toMatchObject({ mark: 'ours', version: 2 })
    await expect(change({ members: 'Late' })).rejects.toMatchObject({
      code: 'conflict',
      data: { version: 2 },
    })
  })
})

describe('a rule', () => {
  it('is added and changed with its source and review, and says of whom it is said', async () => {
    const typed = {
      kind: 'handling',
      key: 'talons',
      meaning: 'Hold the feet',
      jurisdiction: '',
      clockDays: '',
      mark: 'CP',
      reviewedOn: '',
    }
    const at = await addRule(administrator, typed, NOON)
    expect(await refusal(addRule(administrator, typed, NOON))).toBe('rule key-there-already')
    await pool.query("update species set handling_cautions = '{talons}' where slug = 'kestrel'")
    expect((await getRule(coordinator, at)).species).toEqual([{ slug: 'kestrel', commonName: 'Kestrel' }])
    await changeRule(administrator, at, { ...typed, reviewedOn: '2026-06-10', version: '1' }, NOON)
    expect((await getRule(coordinator, at)).rule).toMatchObject({ mark: 'CP', reviewedOn: '2026-06-10' })
    await changeRule(administrator, at, { ...typed, meaning: 'Hold both feet', version: '2' }, NOON)
    expect((await getRule(coordinator, at)).rule).toMatchObject({
      mark: 'ours',
      reviewedOn: null,
      version: 3,
    })
    expect((await listRules(coordinator)).map(one => one.key)).toEqual(['only-some', 'talons'])
  })
})

describe('a species', () => {
  it('takes class from its group and side from its company; animals in care keep theirs', async () => {
    const slug = await addSpecies(administrator, speciesTyped, NOON)
    const { rows } = await pool.query('select class, preys from species where slug = $1', [slug])
    expect(rows).toEqual([{ class: 'bird', preys: 'predator' }])
    expect(await refusal(addSpecies(administrator, speciesTyped, NOON))).toBe('rule species_common_name_once')
    const kestrel = {
      ...speciesTyped,
      commonName: 'Kestrel',
      companySlug: 'thrushes',
      licenceKeys: ['x'],
      licenceMark: 'R:S1',
      version: '1',
    }
    await changeSpecies(administrator, 'kestrel', kestrel, NOON)
    const companies = await pool.query(
      "select distinct company_slug from casualty where species_slug = 'kestrel'",
    )
    expect(companies.rows).toEqual([{ company_slug: 'kestrels' }])
    const { species } = await getSpeciesForm(coordinator, 'kestrel')
    expect(species).toMatchObject({
      companySlug: 'thrushes',
      licenceKeys: ['x'],
      licenceMark: 'R:S1',
      version: 2,
    })
    await changeSpecies(
      administrator,
      'kestrel',
      { ...kestrel, licenceKeys: ['x', 'y'], massGHigh: '300', version: '2' },
      NOON,
    )
    expect((await getSpeciesForm(coordinator, 'kestrel')).species).toMatchObject({
      licenceMark: 'ours',
      massMark: 'ours',
      youngMark: 'CP',
    })
    const { rows: listed, total } = await listSpecies(coordinator, { group: 'falcons', skip: 0, take: 9 })
    expect([total, listed.map(one => one.commonName)]).toEqual([2, ['Kestrel', 'Lanner']])
  })
})

describe('a condition', () => {
  it('is added with its words, changed over its version, and switched off', async () => {
    const slug = await addCondition(administrator, conditionTyped, NOON)
    expect(slug).toBe('caught-in-a-net')
    await changeCondition(
      administrator,
      slug,
      { ...conditionTyped, defaultUrgency: 'now', version: '1' },
      NOON,
    )
    expect(await getCondition(coordinator, slug)).toMatchObject({
      defaultUrgency: 'now',
      markUrgency: 'ours',
      version: 2,
    })
    expect(
      await refusal(changeCondition(administrator, slug, { ...conditionTyped, version: '1' }, NOON)),
    ).toBe('conflict')
    await switchCondition(administrator, slug, { version: '2', isActive: 'off' }, NOON)
    const { rows } = await pool.query("select knowledge_snapshot() -> 'conditions' as known")
    expect(JSON.stringify(rows)).not.toContain(slug)
  })

  it('calls for other cautions from now on; what the reference says besides and what was recorded stay', async () => {
    const typed = { ...conditionTyped, name: 'Oiled at sea' }
    const slug = await addCondition(administrator, typed, NOON)
    await pool.query("update condition set cautions = '{finder,zoonoses}' where slug = $1", [slug])
    const found = async () =>
      (await pool.query('select json_agg(f order by f.id) as found from finding f')).rows[0].found
    const before = { found: await found(), knowledge: await knowledge() }
    expect(before.found).not.toHaveLength(0)
    const cautionsOf = async () =>
      (
        await pool.query(
          "select c ->> 'cautions' as of from jsonb_array_elements(knowledge_snapshot() -> 'conditions') c where c ->> 'slug' = $1",
          [slug],
        )
      ).rows[0].of

    const version = String((await getCondition(coordinator, slug)).version)
    const change = (what: object) =>
      changeCondition(administrator, slug, { ...typed, version, ...what }, NOON)
    await expect(change({ cautions: ['finder'] })).rejects.toMatchObject({
      problems: [{ field: 'cautions.0' }],
    })
    await change({ cautions: ['carcass', 'bats'] })
    expect(JSON.parse(await cautionsOf())).toEqual(['finder', 'carcass', 'bats'])
    expect(await getCondition(coordinator, slug)).toMatchObject({
      cautions: ['carcass', 'bats'],
      markCautions: 'ours',
    })
    expect(await knowledge()).toBeGreaterThan(before.knowledge)
    expect(await found()).toEqual(before.found)

    const next = String((await getCondition(coordinator, slug)).version)
    await change({ cautions: ['bats', 'carcass'], markCautions: 'A paper', version: next })
    expect((await getCondition(coordinator, slug)).markCautions).toBe('A paper')
  })
})

describe('the gazetteer', () => {
  type Checked = { readonly say: string; readonly complaints: readonly string[]; readonly confirm?: string }
  const checked = async (csv: string): Promise<Checked> =>
    importPlaces(manager, { csv }, NOON).then(
      () => Promise.reject(new Error('taken in unseen')),
      (thrown: Failure) => thrown.data as Checked,
    )

  it('is searched by every name, and a place that is switched off is not known to calls', async () => {
    const id = await addPlace(manager, placeTyped, NOON)
    const names = async (letters: string) =>
      (await listPlaces(coordinator, { letters, skip: 0, take: 9 })).rows.map(one => one.name)
    expect(await names('the f')).toEqual(['Fenmoor'])
    expect(await names('%')).toEqual([])
    expect(await refusal(addPlace(manager, placeTyped, NOON))).toBe('rule gazetteer_place_name_once')
    await changePlace(manager, id, { ...placeTyped, alsoCalled: 'Fen', version: '1' }, NOON)
    await switchPlace(manager, id, { version: '2', isActive: 'off' }, NOON)
    const { rows } = await pool.query("select knowledge_snapshot() -> 'places' as known")
    expect(JSON.stringify(rows)).not.toContain('Fenmoor')
    expect(await refusal(addPlace(coordinator, placeTyped, NOON))).toBe('forbidden')
  })

  it('takes a table in only once it was seen, the good rows of it, and the same table again changes nothing', async () => {
    const csv =
      'name,kind,also called,latitude,longitude\nQuay,road,,54,-3\nMill,landmark,the Mill,54.5,-3\nx,hill,,54,-3\n'
    const first = await checked(csv)
    expect(first.say).toBe('In this table: 1 new, 1 changed, 0 as they are, 1 row needs another look')
    expect(first.complaints).toEqual(['Line 4, kind: One of the choices'])
    expect(await refusal(addPlace(manager, { ...placeTyped, name: 'Quay', kind: 'road' }, NOON))).toBe(
      'nothing',
    )
    const moved = await importPlaces(manager, { csv, confirm: first.confirm }, NOON).catch(
      (thrown: Failure) => thrown.data as Checked,
    )
    expect((moved as Checked).say).toMatch(/^In this table: 0 new, 2 changed/)
    const asTextArea = csv.replaceAll('\n', '\r\n')
    await importPlaces(manager, { csv: asTextArea, confirm: (moved as Checked).confirm }, NOON)
    const again = await checked(csv)
    expect(again.say).toMatch(/^In this table: 0 new, 0 changed, 2 as they are/)
    expect(again.confirm).toBeUndefined()
  })

  it('given out and taken in again is the same', async () => {
    const { csv } = await exportPlaces(coordinator)
    const back = await checked(csv)
    expect(back.complaints).toEqual([])
    expect(back.say).toMatch(/^In this table: 0 new, 0 changed/)
  })
})
