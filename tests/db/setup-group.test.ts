import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor, Role } from '#lib/authz/actor.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { recordArrived } from '#lib/service/record.ts'
import { addGroup, changeGroup, getGroup, listGroups, switchGroup } from '#lib/service/setup/group.ts'
import { addSpecies, newSpeciesForm, switchSpecies } from '#lib/service/setup/species.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { speciesTyped } from '#tests/support/setup-forms.ts'

const { pool } = database
const as = (...roles: Role[]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: roles.map(role => ({ role })),
})
const administrator = as('administrator', 'coordinator')
const manager = as('manager')
const coordinator = as('coordinator')

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query("insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x')")
  client.release()
})

const refusal = (work: Promise<unknown>) =>
  work.then(
    () => 'nothing',
    (thrown: Failure) => `${thrown.code} ${thrown.rule ?? ''} ${thrown.data?.['say'] ?? ''}`.trim(),
  )
const knowledge = async () => (await pool.query('select knowledge_revision as at from network')).rows[0].at

const smallBirds = {
  name: 'Small birds',
  defaultCompany: 'thrushes',
  temperament: 'Adults fight in spring',
  temperamentMark: 'CP',
  stock: { 'hospital-cage': '3' },
  stockMark: 't',
  minutes: { 'critical care': '25' },
  minutesMark: 't',
  housing: { 'critical care': 'intensive-care', 'limited activity': 'sheltered-aviary' },
  housingElse: {
    'critical care': 'hospital-cage',
    'limited activity': 'sheltered-aviary',
    overwintering: 'indoor-pen',
  },
  housingMark: 'CP',
  version: '1',
}

describe('a group', () => {
  it('keeps source and day of review with its temperament', async () => {
    await changeGroup(administrator, 'small-birds', { ...smallBirds, reviewedOn: '2026-06-01' }, NOON)
    expect((await getGroup(coordinator, 'small-birds')).group).toMatchObject({
      temperament: 'Adults fight in spring',
      temperamentMark: 'ours',
      stock: { 'hospital-cage': 3 },
      stockMark: 'ours',
      minutes: { 'critical care': 25 },
      minutesMark: 'ours',
      housing: {
        quarantine: ['isolation'],
        'critical care': ['intensive-care', 'hospital-cage'],
        'limited activity': ['sheltered-aviary'],
        overwintering: ['indoor-pen'],
      },
      housingMark: 'ours',
      reviewedOn: '2026-06-01',
      version: 2,
    })
    const tomorrow = changeGroup(
      administrator,
      'small-birds',
      { ...smallBirds, version: '2', reviewedOn: '2026-06-11' },
      NOON,
    )
    await expect(tomorrow).rejects.toMatchObject({
      problems: [{ field: 'reviewedOn', reason: 'not-happened-yet' }],
    })
  })
})

describe('a group that is added', () => {
  const typed = {
    name: 'Rails and crakes',
    class: 'bird',
    defaultCompany: 'thrushes',
    temperament: 'Hide',
    temperamentMark: 'CP',
    housing: { 'restricted activity': 'hospital-cage', quarantine: 'outdoor-pen' },
    housingElse: {},
    housingMark: 'Somebody who knows',
    stock: { 'hospital-cage': '1' },
    stockMark: 'CP',
    minutes: { 'critical care': '30' },
    minutesMark: 'CP',
    isHighRiskInfluenza: 'on',
    reviewedOn: '',
  }
  const off = { version: '1', isActive: 'off' }

  it('stands once with its marks, and knowledge moves on', async () => {
    const before = await knowledge()
    expect(await refusal(addGroup(manager, typed, NOON))).toBe('forbidden')
    expect(await addGroup(administrator, typed, NOON)).toBe('rails-and-crakes')
    expect(await knowledge()).toBeGreaterThan(before)
    expect(await refusal(addGroup(administrator, typed, NOON))).toBe('rule species_group_name_once')
    expect((await getGroup(coordinator, 'rails-and-crakes')).group).toMatchObject({
      class: 'bird',
      housing: { 'restricted activity': ['hospital-cage'], quarantine: ['isolation'] },
      housingMark: 'Somebody who knows',
      minutes: { 'critical care': 30 },
      isHighRiskInfluenza: true,
      isActive: true,
      species: 0,
    })
    await expect(
      addGroup(administrator, { ...typed, housing: { 'critical care': 'shed' }, class: '' }, NOON),
    ).rejects.toMatchObject({ problems: [{ field: 'housing.critical care' }] })
  })

  it('is offered to no species while it is off, and stays on while a species of it is', async () => {
    await switchGroup(administrator, 'rails-and-crakes', off, NOON)
    expect((await newSpeciesForm(administrator)).groups.map(one => one.id)).not.toContain('rails-and-crakes')
    expect((await listGroups(coordinator)).at(-1)).toMatchObject({
      slug: 'rails-and-crakes',
      isActive: false,
    })
    const crake = { ...speciesTyped, commonName: 'Crake', groupSlug: 'rails-and-crakes' }
    expect(await refusal(addSpecies(administrator, crake, NOON))).toBe('rule group-switched-off')

    await switchGroup(administrator, 'rails-and-crakes', { version: '2', isActive: 'on' }, NOON)
    await addSpecies(administrator, crake, NOON)
    const again = () => switchGroup(administrator, 'rails-and-crakes', { ...off, version: '3' }, NOON)
    expect(await refusal(again())).toBe('rule group-has-species')
    await switchSpecies(administrator, 'crake', off, NOON)
    await again()
    expect(await refusal(switchSpecies(administrator, 'crake', { version: '2', isActive: 'on' }, NOON))).toBe(
      'rule group-switched-off',
    )
  })
})

/* Blackbirds are 5, 10, 15, ...; E7 and E8 are hospital cages at the second centre. */
describe('housing that animals live in now', () => {
  const MORNING = hours(24)
  const LATER = hours(30)

  async function planOf(casualty: number, stages: readonly string[]): Promise<void> {
    const { rows } = await pool.query(
      `insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
       select max(id), $1, 1, '{p1}', 'x' from entry returning id`,
      [casualty],
    )
    await pool.query(
      `insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
       select $1, s.no, s.stage, 'hospital-cage', '{}', '{}' from unnest($2::text[]) with ordinality s (stage, no)`,
      [rows[0].id, stages],
    )
  }
  const written = async () =>
    (
      await pool.query(
        `select (select json_agg(k order by k.id) from claim k) as claims,
                (select json_agg(s order by s.casualty_plan_id, s.stage_no) from casualty_stage s) as stages,
                (select json_agg(w order by w.casualty_id, w.since) from whereabouts w) as places`,
      )
    ).rows[0]

  it('names who lives in it before it is taken from the group, and changes nothing of theirs', async () => {
    for (const casualty of [5, 10]) {
      await recordArrived(administrator, casualty, { since: MORNING, centreId: 2, enclosureId: 7 }, MORNING)
    }
    await pool.query('select plan_hold(15, 8, null, $1, null, $2, $3, false, null, $1)', [
      MORNING,
      hours(40),
      hours(48),
    ])
    await planOf(5, ['restricted activity', 'limited activity'])
    await planOf(10, ['critical care', 'restricted activity'])
    await planOf(15, ['restricted activity'])
    await pool.query(
      "insert into stage_fact (entry_id, casualty_id, stage_no, kind, at) select max(id), 10, 1, 'began', $1 from entry",
      [MORNING],
    )

    const { group } = await getGroup(administrator, 'small-birds')
    const typed = {
      ...smallBirds,
      housing: { 'restricted activity': 'hospital-cage', 'critical care': 'intensive-care' },
      housingElse: { 'critical care': 'hospital-cage' },
      version: String(group.version),
    }
    await changeGroup(administrator, 'small-birds', typed, LATER)
    const before = await written()
    const narrower = {
      ...typed,
      housing: { ...typed.housing, 'restricted activity': 'indoor-pen' },
      version: String(group.version + 1),
    }
    const thrown: Failure = await changeGroup(administrator, 'small-birds', narrower, LATER).catch(one => one)
    expect(thrown).toMatchObject({
      rule: 'breaks-current',
      data: {
        breaks: [
          'test 5, in E7, Ward, South, stays where it is, in housing that its group no longer has at its stage',
          'The place kept for test 15 in E8, Ward, South stays kept, in housing that its group no longer has at its stage',
        ],
      },
    })
    expect((await getGroup(administrator, 'small-birds')).group.version).toBe(group.version + 1)

    const confirm = thrown.data?.['confirm']
    await changeGroup(administrator, 'small-birds', { ...narrower, confirm }, LATER)
    expect((await getGroup(administrator, 'small-birds')).group.housing['restricted activity']).toEqual([
      'indoor-pen',
    ])
    expect(await written()).toEqual(before)
  })

  it('may be given up to the care plan, and another kind beside it asks nothing', async () => {
    const { group } = await getGroup(administrator, 'small-birds')
    const back = { ...smallBirds, housing: { 'restricted activity': 'hospital-cage' }, housingElse: {} }
    await changeGroup(administrator, 'small-birds', { ...back, version: String(group.version) }, LATER)
    const wider = { ...back, housingElse: { 'restricted activity': 'indoor-pen' } }
    await changeGroup(administrator, 'small-birds', { ...wider, version: String(group.version + 1) }, LATER)
    const none = { ...back, housing: {}, version: String(group.version + 2) }
    expect(await refusal(changeGroup(administrator, 'small-birds', none, LATER))).toBe('nothing')
  })
})
