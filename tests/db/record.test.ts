import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { closeEnclosure, countCentre, liftClosure, markClean, setSiteState } from '#lib/service/closure.ts'
import { bookDeparture, holdPlace, releaseHold } from '#lib/service/hold.ts'
import { recordArrived, recordMoved, recordOutcome, recordUndone } from '#lib/service/record.ts'
import {
  identify,
  recordCheck,
  recordNote,
  recordReady,
  recordStageMoved,
  recordWeight,
  reviseExpectation,
} from '#lib/service/record-stay.ts'
import { failureWords } from '#lib/words/failure.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const BLACKBIRD = 10
const SPARROW = 12
const THRUSH = 16
const CAGE = 7

const person = (role: PersonActor['roles'][number]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [role],
})
const coordinator = person({ role: 'coordinator' })
const carer = (centreId: number) => person({ role: 'carer', centreId })
const manager = person({ role: 'manager' })

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  const estimate = {
    stage: 'limited activity',
    ready: { kind: 'length', length: { medianDays: 6, p90Days: 14 } },
    shares: { onward: 0.9, died: 0.05, euthanased: 0.04, left: 0.01 },
    died: { medianDays: 2, p90Days: 31 },
    euthanased: { medianDays: 2, p90Days: 31 },
  }
  await client.query(
    `with p as (insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
       select 1, animal, 1, '{p1}', 'x' from unnest($1::int[]) animal returning id)
     insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
     select id, no, 'limited activity', 'sheltered-aviary', $2, '{"lengths":"CP"}' from p, generate_series(1, 2) no`,
    [[BLACKBIRD, THRUSH], JSON.stringify(estimate)],
  )
  client.release()
})

const one = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows[0]
async function failure(work: Promise<unknown>): Promise<Failure> {
  const thrown = await work.then(
    () => undefined,
    (refused: unknown) => refused,
  )
  expect(thrown).toBeInstanceOf(Failure)
  return thrown as Failure
}

describe('facts through the services', () => {
  it('arrive, move, leave a revision and a line in the audit each', async () => {
    const { revision: before } = await one('select revision from network')
    await recordArrived(carer(2), BLACKBIRD, { centreId: '2', since: '2026-06-10T12:00' }, NOON)
    await recordMoved(carer(2), BLACKBIRD, { enclosureId: String(CAGE), placeNo: '' }, hours(1))
    expect(await one('select revision - $1::int as more from network', [before])).toEqual({ more: 2 })
    const claim = await one(
      `select enclosure_id, starts_at from claim where casualty_id = $1 and kind = 'stay' and state = 'live'`,
      [BLACKBIRD],
    )
    expect(claim).toEqual({ enclosure_id: CAGE, starts_at: hours(1) })
    // 12:00 by the clock of the network in June is 11:00 in UTC: the time given in the form counts, not its letters.
    expect(
      await one('select since from keeping where casualty_id = $1 order by id limit 1', [BLACKBIRD]),
    ).toEqual({ since: hours(-1) })
    const audit = await one(
      `select actor_words, action, columns from audit where subject_id = $1 order by id desc`,
      [String(BLACKBIRD)],
    )
    expect(audit).toMatchObject({ actor_words: 'One', action: 'moved' })
    expect(JSON.stringify(audit)).not.toContain(String(CAGE))
  })

  it('are refused only to people whom the animal does not concern', async () => {
    const elsewhere = await failure(recordMoved(carer(1), BLACKBIRD, { to: 'finder' }, hours(2)))
    expect(elsewhere.code).toBe('not-found')
    expect((await failure(recordMoved(manager, BLACKBIRD, { to: 'finder' }, hours(2)))).code).toBe(
      'forbidden',
    )
    expect((await failure(recordMoved(coordinator, 9999, { to: 'finder' }, hours(2)))).code).toBe('not-found')
  })

  it('lie in the past', async () => {
    const refused = await failure(
      recordMoved(coordinator, BLACKBIRD, { to: 'finder', since: hours(30) }, NOON),
    )
    expect(refused.problems).toEqual([{ field: 'since', reason: 'not-happened-yet' }])
  })

  it('say which promises they broke', async () => {
    const held = await holdPlace(
      coordinator,
      SPARROW,
      { enclosureId: 6, placeNo: 1, startsAt: hours(5), needsIsolation: 'no' },
      hours(2),
    )
    const { broken } = await closeEnclosure(manager, 6, { reason: 'storm' }, hours(3))
    expect(broken).toMatchObject([{ claimId: held.made, reference: 'test 12', enclosure: 'E6' }])
    const closure = await one('select id from closure where enclosure_id = 6')
    await liftClosure(manager, closure.id, hours(4))
    expect(await one('select lifted_at from closure where id = $1', [closure.id])).toEqual({
      lifted_at: hours(4),
    })
  })

  it('ask two questions about an outcome, and can be taken back', async () => {
    await recordArrived(coordinator, SPARROW, { centreId: 2, enclosureId: 8, placeNo: 2 }, hours(4))
    const wrong = { alive: 'alive', whereNow: 'died by itself' }
    expect((await failure(recordOutcome(coordinator, SPARROW, wrong, hours(5)))).rule).toBe('no-such-outcome')
    const still = { alive: 'alive', whereNow: 'with us' }
    expect((await failure(recordOutcome(coordinator, SPARROW, still, hours(5)))).rule).toBe('still-in-care')
    const { made } = await recordOutcome(
      coordinator,
      SPARROW,
      { alive: 'alive', whereNow: 'in the wild' },
      hours(5),
    )
    expect(await one('select outcome from keeping where id = $1', [made])).toEqual({ outcome: 'released' })
    await recordUndone(coordinator, SPARROW, made, hours(6))
    expect(
      await one('select keeper from whereabouts where casualty_id = $1 and until is null', [SPARROW]),
    ).toEqual({ keeper: 'centre' })
  })
})

describe('plans through the services', () => {
  it('are refused with everything that stands against them', async () => {
    await closeEnclosure(manager, CAGE, { reason: 'paint', startsAt: hours(20), endsAt: hours(30) }, hours(7))
    const refused = await failure(
      holdPlace(
        coordinator,
        SPARROW,
        { enclosureId: CAGE, placeNo: 1, startsAt: hours(8), needsIsolation: true },
        hours(7),
      ),
    )
    const said = [failureWords(refused).say, ...(refused.data['also'] as string[])]
    expect(said).toEqual([
      'The enclosure is closed until Thu 11 Jun, 19:00',
      'Quarantine needs a place in isolation',
      'test 1 is in it until Sat 20 Jun, 13:00 and may not share with this animal',
      'test 10 is in it until further notice and may not share with this animal',
    ])
  })

  it('keep a place by the policy, give it back, book a departure', async () => {
    const { made } = await holdPlace(coordinator, 15, { enclosureId: 5, startsAt: hours(60) }, hours(8))
    expect(await one('select expires_at from claim where id = $1', [made])).toEqual({ expires_at: hours(64) })
    expect((await releaseHold(coordinator, made, hours(9))).made).toBe(true)
    expect((await releaseHold(coordinator, made, hours(9))).made).toBe(false)
    await bookDeparture(carer(2), SPARROW, { leavesAt: hours(48) }, hours(9))
    expect(
      await one(`select at from departure where casualty_id = $1 and state = 'booked'`, [SPARROW]),
    ).toEqual({
      at: hours(48),
    })
  })

  it('reach every hold with a stop', async () => {
    const { made } = await holdPlace(coordinator, 20, { enclosureId: 1, startsAt: hours(12) }, hours(10))
    const stop = { state: 'no-movement', reason: 'suspicion' }
    expect((await failure(setSiteState(carer(1), 1, stop, hours(11)))).code).toBe('forbidden')
    const { broken } = await setSiteState(coordinator, 1, stop, hours(11))
    expect(broken.map(one => one.claimId)).toEqual([made])
    const refused = await failure(
      holdPlace(coordinator, 20, { enclosureId: 1, startsAt: hours(12) }, hours(12)),
    )
    expect(refused.rule).toBe('hold_not_at_a_stopped_site')
    await setSiteState(coordinator, 1, { state: 'open', reason: 'clear' }, hours(13))
    await holdPlace(coordinator, 20, { enclosureId: 1, startsAt: hours(14) }, hours(13))
  })
})

describe('a stay through the services', () => {
  it('takes stages, checks, weights and words', async () => {
    await recordReady(carer(2), BLACKBIRD, { stageNo: 1 }, hours(14))
    await recordStageMoved(carer(2), BLACKBIRD, { stageNo: '2' }, hours(15))
    expect((await failure(recordReady(carer(2), BLACKBIRD, { stageNo: 7 }, hours(15)))).rule).toBe(
      'stage-not-in-the-plan',
    )
    await recordWeight(carer(2), BLACKBIRD, { grams: '91.5' }, hours(15))
    expect(
      await one(
        `select e.revision = n.revision as "isNewest", e.entered_at, a.action, a.columns, a.subject_id from network n,
                weight w join entry e on e.id = w.entry_id, audit a
          where w.casualty_id = $1 order by a.id desc limit 1`,
        [BLACKBIRD],
      ),
    ).toEqual({
      isNewest: true,
      entered_at: hours(15),
      action: 'weighed',
      columns: ['grams'],
      subject_id: String(BLACKBIRD),
    })
    await recordNote(carer(2), BLACKBIRD, { words: 'eats' }, hours(15))
    const check = await one(
      `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, interval_days)
       values ($1, 2, 'weigh', 'x', 'carer', 'CP', 3) returning id`,
      [BLACKBIRD],
    )
    await recordCheck(carer(2), check.id, { passed: 'yes', result: 'fine', grams: '93.5' }, hours(16))
    expect(
      await one('select grams, at from weight where casualty_id = $1 order by id desc limit 1', [BLACKBIRD]),
    ).toEqual({
      grams: 93.5,
      at: hours(16),
    })
    expect(
      await one(`select due_on::text from check_due where casualty_id = $1 and done_at is null`, [BLACKBIRD]),
    ).toEqual({ due_on: '2026-06-14' })
    expect((await failure(recordCheck(carer(2), check.id, { passed: true }, hours(17)))).rule).toBe(
      'check-done-already',
    )
    const of = async (actor: PersonActor, id: number) =>
      (await failure(recordCheck(actor, id, { passed: true }, hours(17)))).code
    expect(await of(carer(1), check.id)).toBe('not-found')
    expect(await of(manager, check.id)).toBe('forbidden')
    expect(await of(coordinator, 9999)).toBe('not-found')
    await failure(recordCheck(carer(2), check.id, { passed: true, grams: '94' }, hours(17)))
    await failure(recordCheck(carer(2), check.id, { passed: true, grams: '-1' }, hours(17)))
    expect(await one('select count(*)::int as n from weight where casualty_id = $1', [BLACKBIRD])).toEqual({
      n: 2,
    })
  })

  it('dates the checks of a stage from the day it began, those of later stages from the day it is expected', async () => {
    const put = (stageNo: number, check: string, more: string) =>
      pool.query(
        `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, due_on, counted_from, done_at, passed)
         values ($1, $2, $3, 'x', 'carer', 'CP', ${more})`,
        [THRUSH, stageNo, check],
      )
    await put(1, 'moves', `'2026-06-15', '2026-06-12', null, null`)
    await put(1, 'by-hand', `'2026-06-15', null, null, null`)
    await put(1, 'done', `'2026-06-15', '2026-06-12', '2026-06-10', true`)
    await put(2, 'later', `'2026-07-10', '2026-07-01', null, null`)
    const days = async () =>
      Object.fromEntries(
        (
          await pool.query('select check_slug, due_on::text from check_due where casualty_id = $1', [THRUSH])
        ).rows.map(row => [row.check_slug, row.due_on]),
      )
    // It began on 10 June, two days sooner than expected; its usual time is six days (above).
    await recordStageMoved(coordinator, THRUSH, { stageNo: '1' }, hours(1))
    const began = { moves: '2026-06-13', 'by-hand': '2026-06-15', done: '2026-06-15', later: '2026-06-25' }
    expect(await days()).toEqual(began)
    const revision = { because: 'slow', stages: [{ stageNo: 1, medianDays: 20, p90Days: 40 }] }
    await reviseExpectation(coordinator, THRUSH, revision, hours(2))
    expect(await days()).toEqual({ ...began, later: '2026-07-09' })
    await recordStageMoved(coordinator, THRUSH, { stageNo: '2' }, hours(50))
    expect((await days())['later']).toBe('2026-06-21')
  })

  it('is expected anew in a version beside the old', async () => {
    const revision = { because: 'no union', stages: [{ stageNo: 1, medianDays: 27, p90Days: 40 }] }
    const { made } = await reviseExpectation(carer(2), BLACKBIRD, revision, hours(17))
    expect(made).toBe(2)
    const { rows } = await pool.query(
      `select p.version_no, s.estimate -> 'ready' -> 'length' ->> 'medianDays' as median, s.marks ->> 'lengths' as mark
         from casualty_plan p join casualty_stage s on s.casualty_plan_id = p.id and s.stage_no = 1
        where p.casualty_id = $1 order by 1`,
      [BLACKBIRD],
    )
    expect(rows).toEqual([
      { version_no: 1, median: '6', mark: 'CP' },
      { version_no: 2, median: '27', mark: 'revised' },
    ])
  })

  it('is settled again when the animal is named', async () => {
    await identify(carer(2), BLACKBIRD, { species: 'robin', age: 'adult' }, hours(18))
    expect(
      await one('select species_slug, company_slug, is_alone from casualty where id = $1', [BLACKBIRD]),
    ).toEqual({ species_slug: 'robin', company_slug: 'softbills-small', is_alone: true })
  })

  it('belongs to a centre that is counted and enclosures that are cleaned', async () => {
    await countCentre(carer(2), 2, hours(19))
    expect(await one('select counted_at from centre where id = 2')).toEqual({ counted_at: hours(19) })
    await markClean(carer(2), CAGE, hours(19))
    expect((await failure(markClean(carer(1), CAGE, hours(19)))).code).toBe('not-found')
  })
})
