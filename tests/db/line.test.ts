import { beforeEach, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { splitDue } from '#lib/domain/due.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { openCall, promiseCallBack } from '#lib/service/call.ts'
import { readDue, readOwed } from '#lib/service/due.ts'
import {
  acceptLine,
  offerLine,
  readLine,
  readLineState,
  stayOnLine,
  takeOfferBack,
  takeOverLine,
} from '#lib/service/line.ts'
import { whenWords } from '#lib/words/due.ts'
import { failureWords } from '#lib/words/failure.ts'
import { database } from '#tests/support/database.ts'
import { hours } from '#tests/support/heart.ts'
import { beginNight, MARIT, ODO, OPEN_THINGS, SOMELLA } from '#tests/support/night.ts'

const { pool } = database
const LONDON = 'Europe/London'
/** A winter's morning, and the two nights on which the clocks of the United Kingdom change (GOV.UK "When do the clocks change?"). */
const MORNING = new Date('2026-11-29T08:00Z')
const CLOCKS_BACK = new Date('2026-10-25T00:50Z')
const CLOCKS_FORWARD = new Date('2027-03-28T00:50Z')
const MIDNIGHT = new Date('2026-11-28T23:58Z')

const night = (now: Date) => beginNight(pool, now)
const until = (now: Date, ahead = 8) => ({ untilAt: hours(ahead, now).toISOString() })
const keys = (items: readonly { readonly key: string }[]) => items.map(({ key }) => key).sort()

async function owed(actor: PersonActor, now: Date): Promise<string[]> {
  const { sections } = await readDue(actor, now)
  const items = sections.flatMap(({ due, later }) => [...due, ...later])
  return keys(items).filter(key => !key.startsWith('line:'))
}

async function refusal(work: Promise<unknown>): Promise<Failure> {
  const thrown = await work.then(
    () => undefined,
    (error: unknown) => error,
  )
  if (!(thrown instanceof Failure)) throw new Error(`not refused: ${String(thrown)}`)
  return thrown
}

describe.each([
  ['in the morning', MORNING],
  ['across midnight', MIDNIGHT],
  ['while the clocks go back', CLOCKS_BACK],
  ['while the clocks go forward', CLOCKS_FORWARD],
])('a handover of fifty open things %s', (_name, now) => {
  beforeEach(() => night(now))

  it('loses none, and of two who accept at once one wins', async () => {
    const before = await readLine(MARIT, now)
    expect(before.passing).toHaveLength(OPEN_THINGS)
    expect(before.staying.map(({ owner }) => owner)).toEqual(['Odo'])
    expect(await owed(MARIT, now)).toEqual(keys(before.passing))

    await offerLine(MARIT, { to: '', words: 'The otter at Marl Cross is not in the list.' }, now)
    expect((await readLineState(now)).turn?.holder).toBe('Marit')

    const at = hours(0.5, now)
    const asked = { turnId: before.turn?.id, ...until(at) }
    const tried = await Promise.allSettled([acceptLine(SOMELLA, asked, at), acceptLine(ODO, asked, at)])
    expect(tried.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    const [winner, loser] = tried[0]?.status === 'fulfilled' ? [SOMELLA, ODO] : [ODO, SOMELLA]
    const lost = tried.find(one => one.status === 'rejected')?.reason
    expect(lost).toMatchObject({ code: 'taken', rule: 'line-passed-already' })
    expect(failureWords(lost as Failure).say).toBe(`${winner.name} took the line a moment ago`)

    const odos = winner === ODO ? keys(before.staying) : []
    expect(await owed(winner, at)).toEqual([...keys(before.passing), ...odos].sort())
    expect(await owed(MARIT, at)).toEqual([])
    expect(await owed(loser, at)).toEqual(loser === ODO ? keys(before.staying) : [])
    const after = await readLine(winner, at)
    expect(after.isMine).toBe(true)
    expect(after.turns[0]?.passed).toHaveLength(OPEN_THINGS)
    expect([...(after.turns[0]?.passed ?? [])].sort()).toEqual(keys(before.passing))
  })

  it('shows each by its instant, the order unmoved by the clock', async () => {
    const { passing } = await readLine(MARIT, now)
    const instants = passing.map(({ at }) => at.getTime())
    expect(instants).toEqual([...instants].sort((a, b) => a - b))
    const shown = new Set(passing.map(item => `${item.key} ${whenWords(item, now, LONDON).at}`))
    expect(shown.size).toBe(OPEN_THINGS)
  })
})

describe('times on the nights the clocks change', () => {
  it('say which of the two half past ones it is', async () => {
    await night(CLOCKS_BACK)
    const { passing } = await readLine(MARIT, CLOCKS_BACK)
    const shown = passing
      .filter(({ about }) => about.kind === 'call-back')
      .map(item => whenWords(item, CLOCKS_BACK, LONDON).at)
    // 00:50 UTC is 01:50 in summer time; an hour later the clock shows 01:50 again (tz database, Europe/London).
    expect(shown.slice(2, 12)).toEqual([
      'Sun 25 Oct, 00:50',
      'Sun 25 Oct, 01:10 BST',
      'Sun 25 Oct, 01:30 BST',
      'Sun 25 Oct, 01:50 BST',
      'Sun 25 Oct, 01:10 GMT',
      'Sun 25 Oct, 01:30 GMT',
      'Sun 25 Oct, 01:50 GMT',
      'Sun 25 Oct, 02:10',
      'Sun 25 Oct, 02:30',
      'Sun 25 Oct, 02:50',
    ])
  })

  it('leave out the hour that is not there', async () => {
    await night(CLOCKS_FORWARD)
    const { passing } = await readLine(MARIT, CLOCKS_FORWARD)
    const shown = passing
      .filter(({ about }) => about.kind === 'call-back')
      .map(item => whenWords(item, CLOCKS_FORWARD, LONDON).at)
    expect(shown.slice(4, 8)).toEqual([
      'Sun 28 Mar, 00:30',
      'Sun 28 Mar, 00:50',
      'Sun 28 Mar, 02:10',
      'Sun 28 Mar, 02:30',
    ])
  })
})

describe('the line', () => {
  beforeEach(() => night(MORNING))

  it('stays with the old holder until the offer is accepted, and only the person named accepts', async () => {
    await offerLine(MARIT, { to: '2', words: '' }, MORNING)
    const { turn } = await readLineState(MORNING)
    expect(turn?.holder).toBe('Marit')
    const asked = { turnId: turn?.id, ...until(MORNING) }
    expect((await refusal(acceptLine(ODO, asked, MORNING))).rule).toBe('line-offered-to-another')
    expect((await refusal(offerLine(MARIT, { to: '3' }, MORNING))).rule).toBe('line_offer_one_open')
    await takeOfferBack(MARIT, MORNING)
    expect((await refusal(acceptLine(SOMELLA, asked, MORNING))).rule).toBe('line-offer-gone')
    expect((await refusal(takeOfferBack(MARIT, MORNING))).rule).toBe('line-offer-gone')
    expect((await refusal(offerLine(SOMELLA, { to: '3' }, MORNING))).rule).toBe('line-not-yours')
    expect((await refusal(offerLine(MARIT, { to: '1' }, MORNING))).rule).toBe('line-offered-to-herself')
    expect((await refusal(offerLine(MARIT, { to: '4' }, MORNING))).rule).toBe('duties-need-a-coordinator')
  })

  it('is taken over with a reason that the audit keeps', async () => {
    const { turn } = await readLineState(MORNING)
    const asked = { turnId: turn?.id, ...until(MORNING) }
    expect((await refusal(takeOverLine(SOMELLA, { ...asked, reason: ' ' }, MORNING))).code).toBe('invalid')
    await takeOverLine(SOMELLA, { ...asked, reason: 'Rang three times, no answer' }, MORNING)
    const { rows } = await pool.query(
      `select person_id, action, reason from audit where subject = 'line' order by id desc limit 1`,
    )
    expect(rows).toEqual([{ person_id: 2, action: 'taken over', reason: 'Rang three times, no answer' }])
    expect((await refusal(takeOverLine(SOMELLA, { ...asked, reason: 'again' }, MORNING))).rule).toBe(
      'line-passed-already',
    )
    expect(await owed(SOMELLA, MORNING)).toHaveLength(OPEN_THINGS)
  })

  it('keeps who opened a call when what is owed passes on', async () => {
    const { turn } = await readLineState(MORNING)
    await takeOverLine(SOMELLA, { turnId: turn?.id, reason: 'x', ...until(MORNING) }, MORNING)
    const { rows } = await pool.query(
      `select count(*) filter (where opened_by = 1)::int as opened, count(*) filter (where owner_id = 2)::int as owned from call`,
    )
    expect(rows).toEqual([{ opened: 12, owned: 12 }])
  })

  it('alarms once its end has passed or the holder is switched off, and everything is everybody’s', async () => {
    const { turn } = await readLineState(MORNING)
    const after = hours(2, MORNING)
    expect((await readLineState(MORNING)).unheld).toBeUndefined()
    expect((await readLineState(after)).unheld).toBe('past-its-end')
    await stayOnLine(MARIT, until(MORNING, 4), MORNING)
    expect((await readLineState(after)).unheld).toBeUndefined()
    expect((await refusal(stayOnLine(MARIT, until(MORNING, 25), MORNING))).rule).toBe('line-hour-not-ahead')
    await pool.query('update person set is_active = false where id = 1')
    const state = await readLineState(MORNING)
    expect([state.unheld, state.holders.map(({ name }) => name)]).toEqual(['holder-gone', ['Odo', 'Somella']])
    expect(await owed(SOMELLA, MORNING)).toHaveLength(OPEN_THINGS)
    const { sections } = await readDue(SOMELLA, MORNING)
    expect(sections[0]?.due.map(({ about }) => about.kind)).toContain('line')
    await takeOverLine(SOMELLA, { turnId: turn?.id, reason: 'switched off', ...until(MORNING) }, MORNING)
    expect((await readLineState(MORNING)).unheld).toBeUndefined()
  })

  it('is nobody’s before the first turn, and two can not both take it up', async () => {
    await pool.query('alter table line_turn disable trigger line_turn_is_append_only')
    await pool.query('delete from line_turn')
    await pool.query('alter table line_turn enable trigger line_turn_is_append_only')
    expect((await readLineState(MORNING)).unheld).toBe('nobody')
    const asked = { turnId: '', ...until(MORNING) }
    const tried = await Promise.allSettled(
      [MARIT, SOMELLA, ODO].map(actor => acceptLine(actor, asked, MORNING)),
    )
    expect(tried.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    const rules = tried.flatMap(one => (one.status === 'rejected' ? [(one.reason as Failure).code] : []))
    expect(rules).toEqual(['taken', 'taken'])
  })
})

describe('due', () => {
  beforeEach(() => night(MORNING))

  it('counts what the page shows as due', async () => {
    const line = await readLineState(MORNING)
    for (const actor of [MARIT, SOMELLA, ODO]) {
      const owed = await readOwed(actor, line, MORNING)
      const page = await readDue(actor, MORNING)
      expect(splitDue(owed, MORNING).due.length).toBe(page.all.length)
      expect(await readDue(actor, MORNING, Promise.resolve(owed))).toEqual(page)
    }
  })

  it('gives a person of several roles one list by role, and a carer her own centres only', async () => {
    const carer = (centreId: number): PersonActor => ({
      kind: 'person',
      personId: 4,
      name: 'Wenna',
      roles: [{ role: 'carer', centreId }],
    })
    const kinds = async (actor: PersonActor) =>
      (await readDue(actor, MORNING)).sections.map(({ role, due }) => [
        role,
        due.map(({ about }) => about.kind),
      ])
    // Both centres were never counted; eight animals are on their way to the second.
    expect(await kinds(carer(1))).toEqual([['carer', ['count']]])
    expect(await kinds(carer(2))).toEqual([['carer', ['count', ...Array(8).fill('expected')]]])
    const everything: PersonActor = {
      ...carer(1),
      roles: [
        { role: 'administrator' },
        { role: 'carer', centreId: 1 },
        { role: 'vet', practiceId: 1 },
        { role: 'coordinator' },
      ],
    }
    const roles = (await readDue(everything, MORNING)).sections.map(({ role }) => role)
    expect(roles).toEqual(['coordinator', 'carer', 'vet', 'administrator'])
  })

  it('puts what she promises at once into her list, and takes it out when it is done', async () => {
    const id = await openCall(SOMELLA, MORNING)
    await promiseCallBack(SOMELLA, id, { minutes: 30, what: 'Is the fox still there' }, MORNING)
    const kinds = (await readDue(SOMELLA, MORNING)).all.map(({ about }) => about.kind)
    expect(kinds).toEqual(['call', 'call-back'])
  })
})
