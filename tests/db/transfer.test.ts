import { beforeAll, describe, expect, it } from 'vitest'
import { demand } from '#lib/authz/demand.ts'
import { listDeskDue } from '#lib/db/due.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { answerByPhone, takeAskBack } from '#lib/service/ask-answer.ts'
import { recordArrived, recordMoved, recordOutcome } from '#lib/service/record.ts'
import { turnBack } from '#lib/service/road-plan.ts'
import { tick } from '#lib/service/ticker.ts'
import { cancelTransfer, proposeTransfer, readTransfers } from '#lib/service/transfer.ts'
import { database } from '#tests/support/database.ts'
import {
  COORDINATOR,
  makeRoadWorld,
  minutes,
  NORTH,
  planTwo,
  SOUTH,
  says,
  typed,
} from '#tests/support/road-world.ts'

const { pool } = database
const RACES = 15
let animals: number[] = []

beforeAll(async () => {
  const client = await pool.connect()
  animals = await makeRoadWorld(client, 14 + 2 * RACES)
  client.release()
})

const take = () => animals.shift() as number
const rows = async (sql: string, ...values: unknown[]) => (await pool.query(sql, values)).rows
const refusal = (work: Promise<unknown>) =>
  work.then(
    () => 'nothing',
    (thrown: Failure) => `${thrown.code} ${thrown.rule ?? ''}`.trim(),
  )
const EXPECTED = 120
/** Proposes a move to South at noon, expected at 14:00. */
async function propose(casualtyId: number, at = 0): Promise<{ transfer: number; ask: number }> {
  const { id: transfer } = await proposeTransfer(
    COORDINATOR,
    { casualtyId, toCentreId: SOUTH, expectedAt: typed(minutes(EXPECTED)) },
    minutes(at),
  )
  const [row] = await rows('select ask_id as ask from transfer where id = $1', transfer)
  return { transfer, ask: row.ask }
}
const answer = (ask: number, say: 'yes' | 'no', at: number) =>
  answerByPhone(COORDINATOR, ask, { say, by: 'Cy Marsh' }, minutes(at))
const stateOf = async (transfer: number) =>
  (await rows('select state from transfer where id = $1', transfer))[0].state
const holdsOf = async (id: number) =>
  (await rows("select state from claim where casualty_id = $1 and kind = 'hold' order by id", id)).map(
    row => row.state,
  )
const keeperOf = async (id: number) =>
  (
    await rows(
      'select w.keeper, w.centre_id as centre from whereabouts w where w.casualty_id = $1 and w.until is null',
      id,
    )
  ).map(row => `${row.keeper} ${row.centre ?? ''}`.trim())

describe('a move between centres', () => {
  it('is proposed, agreed with a place kept, driven and there, with one keeper all the way', async () => {
    const id = take()
    const { transfer, ask } = await propose(id)
    expect(await stateOf(transfer)).toBe('proposed')
    expect(await holdsOf(id)).toEqual([])
    await answer(ask, 'yes', 5)
    expect(await stateOf(transfer)).toBe('agreed')
    expect(await holdsOf(id)).toEqual(['live'])
    expect(await keeperOf(id)).toEqual([`centre ${NORTH}`])
    const owed = async () =>
      (await listDeskDue(demand(COORDINATOR, 'due.read'), minutes(6))).filter(
        item => item.key === `transfer:${transfer}`,
      )
    expect(await owed()).toMatchObject([{ at: minutes(EXPECTED), about: { from: 'North', to: 'South' } }])
    const { legs } = await planTwo(pool, [id])
    expect(await owed()).toEqual([])
    await says(legs[0], 'have', 10)
    expect(await stateOf(transfer)).toBe('on-the-road')
    expect(await keeperOf(id)).toEqual(['driver'])
    expect(await refusal(cancelTransfer(COORDINATOR, transfer, minutes(11)))).toBe(
      'rule transfer-on-the-road',
    )
    await says(legs[0], 'delivered', 60)
    await says(legs[1], 'delivered', 115)
    expect(await stateOf(transfer)).toBe('arrived')
    expect(await keeperOf(id)).toEqual([`centre ${SOUTH}`])
    expect(await holdsOf(id)).toEqual(['taken'])
  })

  it('is refused by the centre, and nothing was moved or kept', async () => {
    const id = take()
    const { transfer, ask } = await propose(id)
    await answer(ask, 'no', 5)
    expect([await stateOf(transfer), await holdsOf(id), await keeperOf(id)]).toEqual([
      'refused',
      [],
      [`centre ${NORTH}`],
    ])
    // It can be proposed again.
    expect(await stateOf((await propose(id, 6)).transfer)).toBe('proposed')
  })

  it('turns back to where it came from, and the place that was kept is free again', async () => {
    const id = take()
    const { transfer, ask } = await propose(id)
    await answer(ask, 'yes', 5)
    const { journey, legs } = await planTwo(pool, [id])
    await says(legs[0], 'have', 10)
    await turnBack(COORDINATOR, journey, minutes(20))
    expect(await holdsOf(id)).toEqual(['given-up'])
    await says(legs[0], 'delivered', 40)
    expect([await stateOf(transfer), await keeperOf(id)]).toEqual(['turned-back', [`centre ${NORTH}`]])
  })

  it('expires where nobody answers, asked one after the other, and where nobody drives', async () => {
    const [silent, undriven] = [take(), take()]
    const asked = await propose(silent)
    const agreed = await propose(undriven)
    await answer(agreed.ask, 'yes', 5)
    await tick(minutes(10))
    expect(await stateOf(asked.transfer)).toBe('expired')
    // Expected at 14:00, and the place waits four hours for it.
    await tick(minutes(EXPECTED + 239))
    expect(await stateOf(agreed.transfer)).toBe('agreed')
    await tick(minutes(EXPECTED + 240))
    expect([await stateOf(agreed.transfer), await holdsOf(undriven)]).toEqual(['expired', ['expired']])
  })

  it('is cancelled by hand, by taking its ask back, and by the end of the case', async () => {
    const [byHand, byAsk, ended] = [take(), take(), take()]
    const one = await propose(byHand)
    await answer(one.ask, 'yes', 5)
    await cancelTransfer(COORDINATOR, one.transfer, minutes(6))
    expect([await stateOf(one.transfer), await holdsOf(byHand)]).toEqual(['cancelled', ['given-up']])
    expect(await refusal(cancelTransfer(COORDINATOR, one.transfer, minutes(7)))).toBe(
      'conflict transfer-over',
    )
    const two = await propose(byAsk)
    await takeAskBack(COORDINATOR, two.ask, minutes(6))
    expect(await stateOf(two.transfer)).toBe('cancelled')
    const three = await propose(ended)
    await recordOutcome(COORDINATOR, ended, { alive: 'dead', whereNow: 'died by itself' }, minutes(7))
    expect(await stateOf(three.transfer)).toBe('cancelled')
    expect(await rows('select state from ask where id = $1', three.ask)).toEqual([{ state: 'taken-back' }])
  })

  it('has arrived however it got there', async () => {
    const id = take()
    const { transfer } = await propose(id)
    await recordArrived(COORDINATOR, id, { centreId: SOUTH }, minutes(30))
    expect(await stateOf(transfer)).toBe('arrived')
  })

  it('is refused twice, from the road, to where it is, and under a stop', async () => {
    const [id, driven, stopped] = [take(), take(), take()]
    await propose(id)
    expect(await refusal(propose(id))).toBe('conflict transfer_one_open')
    await recordMoved(COORDINATOR, driven, { to: 'driver', driverId: '1' }, minutes(1))
    expect(await refusal(propose(driven, 2))).toBe('rule transfer-from-a-centre')
    const home = { casualtyId: stopped, toCentreId: NORTH, expectedAt: typed(minutes(EXPECTED)) }
    expect(await refusal(proposeTransfer(COORDINATOR, home, minutes(0)))).toBe(
      'invalid transfer_goes_elsewhere',
    )
    await pool.query(
      `insert into movement_stop (centre_id, site_state, starts_at, ends_at, reason) values ($1, 'no-movement', '2026-06-01', '2026-06-30', 'x')`,
      [NORTH],
    )
    expect(await refusal(propose(stopped))).toBe('rule hold_not_from_a_stopped_site')
    await pool.query('delete from movement_stop')
    expect((await readTransfers(COORDINATOR, minutes(1))).length).toBeGreaterThan(3)
  })
})

describe('two people at once', () => {
  it(`yes and cancelling: one of the two, and never a place without a move, ${RACES} times`, async () => {
    const seen = new Set<string>()
    for (let n = 0; n < RACES; n++) {
      const id = take()
      const { transfer, ask } = await propose(id)
      await Promise.allSettled([answer(ask, 'yes', 5), cancelTransfer(COORDINATOR, transfer, minutes(5))])
      const state = await stateOf(transfer)
      const live = (await holdsOf(id)).filter(one => one === 'live').length
      seen.add(`${state} ${live}`)
      expect(state).toBe('cancelled')
      expect(live).toBe(0)
    }
    expect(seen.size).toBe(1)
  })

  it(`a yes and a no: one answer counts and the place goes with it, ${RACES} times`, async () => {
    for (let n = 0; n < RACES; n++) {
      const id = take()
      const { transfer, ask } = await propose(id)
      await Promise.allSettled([answer(ask, 'yes', 5), answer(ask, 'no', 5)])
      const state = await stateOf(transfer)
      const live = (await holdsOf(id)).filter(one => one === 'live').length
      expect([`agreed 1`, `refused 0`]).toContain(`${state} ${live}`)
    }
  })
})
