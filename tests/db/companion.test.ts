import { beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listSuspects } from '#lib/db/companion.ts'
import { listCentreDue } from '#lib/db/due.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import { recordCheck } from '#lib/service/record-stay.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const CHICK = 14
const coordinator = { kind: 'person', personId: 1, name: 'One', roles: [{ role: 'coordinator' }] } as const

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

it('leaves out whoever is suspected of a disease', async () => {
  await pool.query('update casualty set is_disease_suspect = true where id = $1', [CHICK])
  const grant = demand(systemActor('test'), 'casualty.read')
  expect(await listSuspects(grant, [CHICK, 15])).toEqual([CHICK])
})

it('is looked for every day until one is found, and then no more', async () => {
  const { rows } = await pool.query<{ id: number }>(
    `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, due_on, interval_days)
     values ($1, 1, 'companion', 'x', 'carer', 'CP', '2026-06-10', 1) returning id`,
    [CHICK],
  )
  const open = async () =>
    (
      await pool.query<{ id: number; due_on: string }>(
        `select id, due_on::text from check_due where casualty_id = $1 and check_slug = 'companion' and done_at is null`,
        [CHICK],
      )
    ).rows
  await recordCheck(coordinator, rows[0]!.id, { passed: 'no' }, NOON)
  const [again] = await open()
  expect(again?.due_on).toBe('2026-06-11')
  await recordCheck(coordinator, again!.id, { passed: 'yes' }, hours(24))
  expect(await open()).toEqual([])
})

describe('a lone young animal that may imprint', () => {
  // Robins, which may imprint here; whose plan asks for no companion.
  const [LONE, MATE, ADULT, DISTANT] = [4, 9, 19, 24] as const
  const SOUTH = 2
  const alone = async (at: Date) => {
    const due = await listCentreDue(demand(systemActor('test'), 'due.read'), [SOUTH], at)
    return due.flatMap(({ about, at: by, isDay }) =>
      about.kind === 'companion' ? [{ by, isDay, ...about }] : [],
    )
  }

  it('is owed a companion every day until one is with it, whatever its plan says', async () => {
    await pool.query(`update casualty set age = 'young', is_alone = false where id = any ($1)`, [
      [LONE, MATE, DISTANT],
    ])
    await pool.query('update casualty set is_alone = false where id = $1', [ADULT])
    await recordArrived(coordinator, LONE, { centreId: SOUTH, enclosureId: 8 }, hours(1))
    // An adult is no companion, nor is a young one elsewhere.
    await recordArrived(coordinator, ADULT, { centreId: SOUTH, enclosureId: 8 }, hours(1))
    await recordArrived(coordinator, DISTANT, { centreId: 1, enclosureId: 2 }, hours(1))
    const [owed, ...more] = await alone(hours(2))
    expect(more).toEqual([])
    expect(owed).toMatchObject({ references: [`test ${LONE}`], since: hours(1), isDay: true })
    // By the end of the day, British summer time, and again the next day.
    expect(owed?.by).toEqual(new Date('2026-06-10T22:59:59Z'))
    expect((await alone(hours(26))).map(({ by }) => by)).toEqual([new Date('2026-06-11T22:59:59Z')])
    await recordArrived(coordinator, MATE, { centreId: SOUTH, enclosureId: 8 }, hours(27))
    expect(await alone(hours(28))).toEqual([])
    await recordMoved(coordinator, MATE, { centreId: SOUTH }, hours(29))
    expect((await alone(hours(30))).flatMap(({ references }) => references).sort()).toEqual([
      `test ${LONE}`,
      `test ${MATE}`,
    ])
  })

  it('stands once where its plan asks for it too, and is no longer owed once that check was passed', async () => {
    const { rows } = await pool.query<{ id: number }>(
      `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, due_on, interval_days)
       values ($1, 1, 'companion', 'x', 'carer', 'CP', '2026-06-11', 1) returning id`,
      [LONE],
    )
    expect((await alone(hours(30))).flatMap(({ references }) => references)).toEqual([`test ${MATE}`])
    await recordCheck(coordinator, rows[0]!.id, { passed: 'yes' }, hours(31))
    expect((await alone(hours(60))).flatMap(({ references }) => references)).toEqual([`test ${MATE}`])
  })
})
