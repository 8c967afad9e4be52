import { beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listCentreDue, listDeskDue, listPracticeDue } from '#lib/db/due.ts'
import { appliesIn } from '#lib/domain/licence.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { holdPlace } from '#lib/service/hold.ts'
import { authoriseCentre, readHolders, recordLicence, removeCentre } from '#lib/service/licence.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import { failureWords } from '#lib/words/failure.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON, record } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const [KESTREL, OTHER] = [13, 18]
const RULE = 'en-schedule-4-keeping'
const DAY = 24
const person = (role: 'coordinator' | 'administrator') => ({
  kind: 'person' as const,
  personId: 1,
  name: 'One',
  roles: [{ role }],
})
const coordinator = person('coordinator')
const administrator = person('administrator')
const system = demand(systemActor('test'), 'system.run') as never
const one = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows[0]

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  await client.query(`update network set jurisdiction = 'England'`)
  await client.query(`
    insert into reference_key (kind, key, meaning, jurisdiction, clock_days, clock_holders, needs_holder, mark)
    values ('licence', '${RULE}', 'register it', 'England', '{15,42}', '{authorised person,vet}', true, 'R:S96+S97');
    insert into reference_key (kind, key, meaning, jurisdiction, clock_days, clock_holders, needs_holder, mark)
    values ('licence', 'elsewhere', 'x', 'Scotland', '{1}', '{anyone}', true, 'R:S98')`)
  await client.query(`update species set licence_keys = $1 where slug = 'kestrel'`, [[RULE, 'elsewhere']])
  for (const animal of [KESTREL, OTHER]) {
    await record(client, { casualty_id: animal, since: hours(-1), keeper: 'finder' })
    await client.query(
      'update arrival set at = $1 where id = (select arrival_id from casualty where id = $2)',
      [hours(-1), animal],
    )
  }
  client.release()
})

const place = (enclosureId: number) =>
  holdPlace(
    coordinator,
    KESTREL,
    { enclosureId, startsAt: hours(1), endsAt: hours(5), expiresAt: hours(9) },
    NOON,
  )

describe('a place for a bird that needs a licence', () => {
  it('is refused with the sentence at a centre that has none, and kept once it is authorised', async () => {
    const refused = await place(1).catch((thrown: unknown) => thrown)
    if (!isFailure(refused)) throw new Error('the place was kept')
    expect(refused.rule).toBe('claim_by_an_authorised_holder')
    expect(failureWords(refused).say).toBe('This centre holds no licence for an animal of this kind')
    const licence = { centreId: 1, licenceNo: 'A 1', validFrom: '2026-01-01', validUntil: '' }
    await authoriseCentre(administrator, RULE, licence, NOON)
    expect((await readHolders(administrator, RULE)).holders).toMatchObject([
      { centre: 'North', licenceNo: 'A 1' },
    ])
    expect((await place(1)).made).toBeGreaterThan(0)
  })

  it('is refused again once the licence has ended or was taken out', async () => {
    const ended = { centreId: 1, licenceNo: 'A 1', validFrom: '2026-01-01', validUntil: '2026-06-09' }
    await authoriseCentre(administrator, RULE, ended, NOON)
    const over = await place(2).catch((thrown: unknown) => thrown)
    expect(isFailure(over) && over.rule).toBe('claim_by_an_authorised_holder')
    await removeCentre(administrator, RULE, { centreId: 1 }, NOON)
    expect((await readHolders(administrator, RULE)).holders).toEqual([])
  })

  it('is no condition of what has happened: that is saved anywhere', async () => {
    await recordArrived(coordinator, KESTREL, { centreId: 1, enclosureId: 5 }, hours(1))
    expect(
      await one('select centre_id from whereabouts where casualty_id = $1 and until is null', [KESTREL]),
    ).toEqual({ centre_id: 1 })
  })
})

describe('a clock', () => {
  const due = async (days: number) => {
    const now = hours(days * DAY)
    const ours = (items: readonly { readonly about: { readonly kind: string } }[]) =>
      items.filter(({ about }) => about.kind === 'licence').length
    return [
      ours(await listCentreDue(system, [1], now)),
      ours(await listDeskDue(system, now)),
      ours(await listPracticeDue(system, [1], now)),
    ]
  }

  it('warns the centre five days ahead and the desk one day ahead, and nobody of elsewhere', async () => {
    expect(await due(9)).toEqual([0, 0, 0])
    expect(await due(10)).toEqual([1, 0, 0])
    expect(await due(14)).toEqual([1, 1, 0])
  })

  it('is the longer one of a vet while a practice has the bird', async () => {
    await recordMoved(coordinator, KESTREL, { to: 'practice', practiceId: 1 }, hours(2))
    expect(await due(14)).toEqual([0, 0, 0])
    expect(await due(37)).toEqual([0, 0, 1])
    await recordMoved(coordinator, KESTREL, { to: 'centre', enclosureId: 5 }, hours(3))
  })

  it('warns no more once somebody says what was done', async () => {
    await recordLicence(coordinator, KESTREL, { key: RULE, words: 'Registered, 1234' }, hours(4))
    expect(await due(14)).toEqual([0, 0, 0])
  })
})

it('holds in the same places by the database as by the program', async () => {
  const rules = ['GB', 'England', 'England and Wales', 'Scotland', 'EU', 'England, Wales', null]
  for (const rule of rules) {
    for (const network of ['England', 'gb', 'GB', 'Wales', 'Scotland', 'Elsewhere', 'EU']) {
      const { said } = await one('select licence_applies($1, $2) as said', [rule, network])
      expect([rule, network, said]).toEqual([rule, network, appliesIn(rule, network)])
    }
  }
})
