import { beforeAll, describe, expect, it } from 'vitest'
import type { Failure } from '#lib/kernel/failure.ts'
import { answerByPhone } from '#lib/service/ask-answer.ts'
import { readMovesAside, setMoveAside, takeMoveUp } from '#lib/service/move-aside.ts'
import { recordArrived } from '#lib/service/record.ts'
import { recordReady } from '#lib/service/record-stay.ts'
import { proposeTransfer, readTransfers } from '#lib/service/transfer.ts'
import { database } from '#tests/support/database.ts'
import { hours, NOON } from '#tests/support/heart.ts'
import { COORDINATOR, makeRoadWorld, minutes, SOUTH, typed } from '#tests/support/road-world.ts'

const { pool } = database
const RACES = 10
let animals: number[] = []
const take = () => animals.shift() as number
const rows = async (sql: string, ...values: unknown[]) => (await pool.query(sql, values)).rows
const refusal = (work: Promise<unknown>) =>
  work.then(
    () => 'nothing',
    (thrown: Failure) => `${thrown.code} ${thrown.rule ?? ''} ${thrown.field ?? ''}`.trim(),
  )

beforeAll(async () => {
  const client = await pool.connect()
  animals = await makeRoadWorld(client, 14 + RACES)
  client.release()
})

const said = (casualtyId: number, change: Readonly<Record<string, string>> = {}) => ({
  casualtyId: String(casualtyId),
  toCentreId: String(SOUTH),
  reason: 'settled here',
  words: '',
  untilOn: '',
  ...change,
})
const standing = async (at: Date) =>
  (await readMovesAside(COORDINATOR, at)).map(({ casualtyId }) => casualtyId)

describe('a proposed move that is set aside', () => {
  it('stands with who, when, why and until when, and leaves a line in the audit', async () => {
    const id = take()
    const aside = await setMoveAside(
      COORDINATOR,
      said(id, { reason: 'unfit to travel', words: 'Still thin', untilOn: '2026-06-12' }),
      minutes(3),
    )
    const [one] = await readMovesAside(COORDINATOR, minutes(4))
    expect(one).toMatchObject({
      id: aside,
      casualtyId: id,
      from: 'North',
      to: 'South',
      at: minutes(3),
      by: COORDINATOR.name,
      reason: 'unfit to travel',
      words: 'Still thin',
      untilOn: '2026-06-12',
    })
    expect(
      await rows(
        "select action, subject_id as id from audit where subject = 'casualty' order by id desc limit 1",
      ),
    ).toEqual([{ action: 'proposed move set aside', id: String(id) }])
    expect(await refusal(setMoveAside(COORDINATOR, said(id), minutes(5)))).toBe('conflict move-aside-already')
    // It is proposed again on its day, at midnight of the network.
    expect(await standing(hours(34))).toEqual([id])
    expect(await standing(hours(36))).toEqual([])
    expect(await refusal(takeMoveUp(COORDINATOR, aside, hours(36)))).toBe('conflict move-aside-over')
  })

  it('is taken up again by hand, once', async () => {
    const id = take()
    const aside = await setMoveAside(COORDINATOR, said(id), minutes(3))
    await takeMoveUp(COORDINATOR, String(aside), minutes(4))
    expect(await standing(minutes(5))).not.toContain(id)
    expect(await refusal(takeMoveUp(COORDINATOR, aside, minutes(5)))).toBe('conflict move-aside-over')
    // And may be set aside once more: a decision a row.
    await setMoveAside(COORDINATOR, said(id), minutes(6))
    expect(await rows('select count(*)::int as n from move_aside where casualty_id = $1', id)).toEqual([
      { n: 2 },
    ])
  })

  it('comes back once the animal is in another place, stage or plan', async () => {
    const [placed, staged, planned] = [take(), take(), take()]
    for (const id of [placed, staged, planned]) await setMoveAside(COORDINATOR, said(id), minutes(3))
    expect(await standing(minutes(4))).toEqual(expect.arrayContaining([placed, staged, planned]))
    await recordArrived(COORDINATOR, placed, { centreId: '1' }, minutes(5))
    await recordReady(COORDINATOR, staged, { stageNo: '1' }, minutes(5))
    await rows(
      `insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
       select 1, $1, 1 + coalesce(max(version_no), 0), '{}', 'x' from casualty_plan where casualty_id = $1`,
      planned,
    )
    const left = await standing(hours(24 * 300))
    for (const id of [placed, staged, planned]) expect(left).not.toContain(id)
  })

  it('needs words for another reason, a day ahead, an animal at a centre, and the right', async () => {
    const id = take()
    const tell = (change: Readonly<Record<string, string>>) =>
      setMoveAside(COORDINATOR, said(id, change), minutes(3)).then(
        () => 'nothing',
        (thrown: Failure) => thrown.problems.map(({ field, reason }) => `${field} ${reason}`).join(),
      )
    expect(await tell({ reason: 'other' })).toBe('words move_aside_other_says_why')
    expect(await tell({ untilOn: '2026-06-10' })).toBe('untilOn move-aside-day-ahead')
    expect(await tell({ untilOn: '2028-06-10' })).toBe('untilOn move-aside-day-ahead')
    expect(await tell({ reason: '' })).toMatch(/^reason /)
    const carer = { ...COORDINATOR, roles: [{ role: 'carer' as const, centreId: 1 }] }
    expect(await refusal(setMoveAside(carer, said(id), minutes(3)))).toMatch(/^forbidden/)
    expect(await standing(minutes(4))).not.toContain(id)
  })

  it(`two at once: one of them, ${RACES} times`, async () => {
    for (let n = 0; n < RACES; n++) {
      const id = take()
      const both = await Promise.all([
        refusal(setMoveAside(COORDINATOR, said(id), minutes(3))),
        refusal(setMoveAside(COORDINATOR, said(id, { reason: 'nobody drives' }), minutes(3))),
      ])
      expect(both.sort()).toEqual(['conflict move-aside-already', 'nothing'])
    }
  })
})

describe('a standing offer of the receiving centre', () => {
  const propose = (casualtyId: number, at: number) =>
    proposeTransfer(
      COORDINATOR,
      { casualtyId, toCentreId: SOUTH, expectedAt: typed(minutes(120)) },
      minutes(at),
    )

  it('answers for a move while it lasts: agreed, a place kept, nobody asked', async () => {
    const [first, second] = [take(), take()]
    await pool.query(
      `insert into standing_offer (centre_id, group_slug, places)
       select $1, s.group_slug, 1 from casualty c join species s on s.slug = c.species_slug where c.id = $2`,
      [SOUTH, first],
    )
    const one = await propose(first, 10)
    expect(one.isAgreed).toBe(true)
    const [shown] = (await readTransfers(COORDINATOR, minutes(11))).filter(({ id }) => id === one.id)
    expect(shown).toMatchObject({ state: 'agreed', agreedBy: 'Its standing offer' })
    expect(shown?.held).not.toBeNull()
    const asked = (id: number) =>
      rows(
        'select a.state, (select count(*)::int from ask_try where ask_id = a.id) as rung from transfer t join ask a on a.id = t.ask_id where t.id = $1',
        id,
      )
    expect(await asked(one.id)).toEqual([{ state: 'yes', rung: 0 }])
    // One place was offered, and it is kept for the first.
    const two = await propose(second, 12)
    expect(two.isAgreed).toBe(false)
    expect(await asked(two.id)).toEqual([{ state: 'put', rung: 1 }])
    await pool.query('delete from standing_offer')
  })

  it('of one place is filled by one of two at once', async () => {
    const [first, second] = [take(), take()]
    await pool.query(
      `insert into standing_offer (centre_id, group_slug, places)
       select $1, s.group_slug, 2 from casualty c join species s on s.slug = c.species_slug where c.id = $2`,
      [SOUTH, first],
    )
    const both = await Promise.all([propose(first, 20), propose(second, 20)])
    expect(both.map(({ isAgreed }) => isAgreed).sort()).toEqual([false, true])
    await pool.query('delete from standing_offer')
  })
})

it('a place kept beside the cage in use is given back at once', async () => {
  const id = take()
  const { id: transfer } = await proposeTransfer(
    COORDINATOR,
    { casualtyId: id, toCentreId: SOUTH, expectedAt: typed(minutes(120)) },
    NOON,
  )
  const [ask] = await rows('select ask_id as id from transfer where id = $1', transfer)
  await answerByPhone(COORDINATOR, ask.id, { say: 'yes', by: 'Cy Marsh' }, minutes(5))
  const [kept] = await rows(
    "select enclosure_id as id from claim where casualty_id = $1 and kind = 'hold' and state = 'live'",
    id,
  )
  const [other] = await rows(
    'select id from enclosure where centre_id = $1 and id <> $2 limit 1',
    SOUTH,
    kept.id,
  )
  const holds = () => rows("select state from claim where casualty_id = $1 and kind = 'hold'", id)
  // In the building first, it may still go where the place is kept.
  await recordArrived(COORDINATOR, id, { centreId: String(SOUTH) }, minutes(100))
  expect(await holds()).toEqual([{ state: 'live' }])
  await recordArrived(
    COORDINATOR,
    id,
    { centreId: String(SOUTH), enclosureId: String(other.id) },
    minutes(110),
  )
  expect(await holds()).toEqual([{ state: 'given-up' }])
})
