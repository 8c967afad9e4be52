import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { readDue } from '#lib/service/due.ts'
import { holdPlace } from '#lib/service/hold.ts'
import { recordArrived, recordMoved } from '#lib/service/record.ts'
import { recordCheck, recordReady } from '#lib/service/record-stay.ts'
import { readRound } from '#lib/service/round.ts'
import { enterOnRound, findOwnTap, settleWaiting } from '#lib/service/round-entry.ts'
import { takenBackWords } from '#lib/words/round-entry.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const THRUSH = 16
const FLEDGLING = 21
const SOUTH = 2
const CAGE = 7
const OTHER_CAGE = 8
const FREE_AVIARY = 6

const person = (personId: number, role: PersonActor['roles'][number]): PersonActor => ({
  kind: 'person',
  personId,
  name: 'One',
  roles: [role],
})
const carer = person(1, { role: 'carer', centreId: SOUTH })
const stranger = person(1, { role: 'carer', centreId: 1 })

const rows = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows
const one = async (text: string, values: unknown[] = []) => (await rows(text, values))[0]

let keys = 0
const tap = (what: string, more: object = {}) => ({
  key: `test-key-${++keys}`,
  centreId: String(SOUTH),
  casualtyId: String(THRUSH),
  tap: what,
  ...more,
})

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
    [[THRUSH, FLEDGLING], JSON.stringify(estimate)],
  )
  // The forecast of the round asks for no plan of usual arrivals.
  await client.query('delete from year_arrivals')
  await client.query('update casualty_stage set estimate = $1', [JSON.stringify(estimate)])
  client.release()
  for (const animal of [THRUSH, FLEDGLING]) {
    await recordArrived(carer, animal, { centreId: SOUTH, enclosureId: CAGE }, NOON)
  }
})

async function check(casualtyId: number, days: number | null = null): Promise<number> {
  const made = await one(
    `insert into check_due (casualty_id, stage_no, check_slug, what, due_on, interval_days, who, mark)
     values ($1, 1, 'flight-test', 'flies', '2026-06-10', $2, 'carer', 'CP') returning id`,
    [casualtyId, days],
  )
  return made.id
}

const undo = async (entryId: number, at: Date) =>
  enterOnRound(carer, tap(`undo ${entryId}`, { casualtyId: '' }), at)

describe('a tap on the round', () => {
  it('counts the centre, and taking it back brings the count before', async () => {
    await enterOnRound(carer, tap('counted', { casualtyId: '' }), hours(1))
    const { entry } = await enterOnRound(carer, tap('counted', { casualtyId: '' }), hours(2))
    expect(await one('select counted_at from centre where id = $1', [SOUTH])).toEqual({
      counted_at: hours(2),
    })
    await undo(entry.id, hours(2))
    expect(await one('select counted_at from centre where id = $1', [SOUTH])).toEqual({
      counted_at: hours(1),
    })
    expect((await rows('select state from round_entry where id = $1', [entry.id]))[0].state).toBe(
      'taken-back',
    )
  })

  it('weighs with a comma, at the time it happened, and is taken back by an entry of its own', async () => {
    const { entry } = await enterOnRound(
      carer,
      tap('weight', { grams: '81,5', agoMs: String(3_600_000) }),
      hours(3),
    )
    const weights = () =>
      rows(
        `select grams, at from weight x where casualty_id = $1 and not is_void
            and not exists (select from weight v where v.supersedes = x.id and v.is_void)`,
        [THRUSH],
      )
    expect(await weights()).toEqual([{ grams: 81.5, at: hours(2) }])
    expect(entry).toMatchObject({ happenedAt: hours(2), enteredAt: hours(3), reference: 'test 16' })
    await undo(entry.id, hours(3))
    expect(await weights()).toEqual([])
    const kept = await rows(
      `select kind, said ->> 'grams' as grams, state from round_entry where casualty_id = $1 order by id`,
      [THRUSH],
    )
    expect(kept).toEqual([
      { kind: 'weight', grams: '81.5', state: 'taken-back' },
      { kind: 'undo', grams: null, state: 'stands' },
    ])
    await expect(undo(entry.id, hours(3))).rejects.toMatchObject({ rule: 'round-undone-already' })
  })

  it('does a check that repeats; taken back it is open again and the repeat is called off', async () => {
    const id = await check(THRUSH, 3)
    const { entry } = await enterOnRound(carer, tap(`check ${id} yes`), hours(3))
    const open = () =>
      rows(
        `select id, due_on::text from check_due
          where casualty_id = $1 and check_slug = 'flight-test' and done_at is null and called_off_at is null`,
        [THRUSH],
      )
    expect((await open()).map(({ due_on }) => due_on)).toEqual(['2026-06-13'])
    await undo(entry.id, hours(3))
    expect(await open()).toEqual([{ id, due_on: '2026-06-10' }])
  })

  it('a check that is not passed takes "ready" back, and taken back itself brings it again', async () => {
    const { id } = await one(`update check_due set required_for = 'next stage' where id = $1 returning id`, [
      await check(THRUSH),
    ])
    const ready = async () =>
      (
        await one(
          `select count(*)::int as n from stage_fact f where casualty_id = $1 and kind = 'ready' and not is_void
             and not exists (select from stage_fact z where z.supersedes = f.id)`,
          [THRUSH],
        )
      ).n
    await recordReady(carer, THRUSH, { stageNo: 1 }, hours(3))
    const { entry } = await enterOnRound(carer, tap(`check ${id} does not fly`), hours(4))
    expect(await ready()).toBe(0)
    await undo(entry.id, hours(4))
    expect(await ready()).toBe(1)
  })

  it('begins a stage and calls off the checks before it; taken back both stand again', async () => {
    const id = await check(THRUSH)
    const began = () =>
      one(
        `select count(*)::int as n from stage_fact f where casualty_id = $1 and kind = 'began' and not is_void
           and not exists (select from stage_fact z where z.supersedes = f.id)`,
        [THRUSH],
      )
    const { entry } = await enterOnRound(carer, tap('stage 2'), hours(4))
    expect(await began()).toEqual({ n: 1 })
    expect((await one('select called_off_at from check_due where id = $1', [id])).called_off_at).toEqual(
      hours(4),
    )
    // Going to another cage is no end that was taken back: what the stage called off stays off.
    const moved = await enterOnRound(carer, tap(`moved ${OTHER_CAGE}`), hours(4.1))
    const { called_off_at } = await one('select called_off_at from check_due where id = $1', [id])
    expect(called_off_at).toEqual(hours(4))
    await undo(moved.entry.id, hours(4.1))
    await undo(entry.id, hours(4))
    expect(await began()).toEqual({ n: 0 })
    expect((await one('select called_off_at from check_due where id = $1', [id])).called_off_at).toBeNull()
  })

  const here = () =>
    one('select keeper, enclosure_id from whereabouts where casualty_id = $1 and until is null', [THRUSH])

  it.each([
    ['moved', `moved ${OTHER_CAGE}`, { keeper: 'centre', enclosure_id: OTHER_CAGE }],
    ['not there', 'not-there', { keeper: 'centre', enclosure_id: null }],
    ['out', 'out dead:died by itself', { keeper: 'nobody', enclosure_id: null }],
  ])('records that it is %s, and back', async (_name, what, expected) => {
    const id = await check(THRUSH)
    const { entry } = await enterOnRound(carer, tap(what), hours(5))
    expect(await here()).toEqual(expected)
    await undo(entry.id, hours(5))
    expect(await here()).toEqual({ keeper: 'centre', enclosure_id: CAGE })
    // What ended with the case goes on with it.
    expect((await one('select called_off_at from check_due where id = $1', [id])).called_off_at).toBeNull()
  })

  it('taken back after an ending, keeps again the place that the ending gave up, where it is free', async () => {
    const kept = () =>
      rows(
        `select enclosure_id, place_no, starts_at from claim
          where casualty_id = $1 and kind = 'hold' and state = 'live' order by id`,
        [THRUSH],
      )
    const hold = { enclosureId: FREE_AVIARY, startsAt: hours(30), needsIsolation: false }
    await holdPlace(person(1, { role: 'coordinator' }), THRUSH, hold, hours(5.1))
    const before = await kept()
    expect(before).toHaveLength(1)
    const out = await enterOnRound(carer, tap('out alive:in the wild'), hours(5.2))
    expect(await kept()).toEqual([])
    const back = await undo(out.entry.id, hours(5.2))
    expect(await kept()).toEqual(before)
    expect(takenBackWords(out.entry, back.entry)).toMatch(/Its place in .+ is kept again$/)

    // On the round of the centre where it is expected its line says who is coming, where it is it does not.
    const comingTo = async (centreId: number) =>
      (await readRound(person(1, { role: 'coordinator' }), centreId, hours(5.2))).rooms
        .flatMap(room => room.enclosures)
        .flatMap(({ id, held }) => held.map(({ coming }) => ({ id, coming })))
    expect(await comingTo(1)).toContainEqual({
      id: FREE_AVIARY,
      coming: { casualtyId: THRUSH, placeNo: before[0].place_no },
    })

    const again = await enterOnRound(carer, tap('out alive:in the wild'), hours(5.3))
    // Meanwhile the whole enclosure was shut: nothing can be kept there.
    const [shut] = await rows(
      `insert into closure (enclosure_id, starts_at, reason) values ($1, $2, 'flooded') returning id`,
      [FREE_AVIARY, hours(5.4)],
    )
    await pool.query(`select settle(array[$1::int], $2, $2)`, [FREE_AVIARY, hours(5.4)])
    const late = await undo(again.entry.id, hours(5.5))
    expect(await here()).toEqual({ keeper: 'centre', enclosure_id: CAGE })
    expect(await kept()).toEqual([])
    expect(takenBackWords(again.entry, late.entry)).toMatch(
      /could not be kept again: keep another from its card$/,
    )
    await pool.query('select lift_closure($1, $2)', [shut.id, hours(5.6)])
  })

  it('is refused without a number, with its field, and for a centre that is not hers', async () => {
    const refused = await enterOnRound(carer, tap('weight', { grams: 'heavy' }), hours(6)).catch(one => one)
    expect(refused).toBeInstanceOf(Failure)
    expect(refused.problems).toEqual([{ field: 'grams', reason: 'not-number' }])
    await expect(enterOnRound(stranger, tap('weight', { grams: '80' }), hours(6))).rejects.toMatchObject({
      code: 'not-found',
    })
  })

  it('belongs to whoever made it', async () => {
    const { entry } = await enterOnRound(carer, tap('weight', { grams: '80' }), hours(6))
    expect((await findOwnTap(carer, entry.id))?.id).toBe(entry.id)
    expect(await findOwnTap(person(2, { role: 'coordinator' }), entry.id)).toBeUndefined()
  })
})

describe('the key', () => {
  const count = () =>
    one('select count(*)::int as n from weight where casualty_id = $1 and grams = 77', [FLEDGLING])
  const sent = { ...tap('weight', { grams: '77' }), casualtyId: String(FLEDGLING) }

  it('records once what is sent twenty times at once', async () => {
    const all = await Promise.all(Array.from({ length: 20 }, () => enterOnRound(carer, sent, hours(7))))
    expect(new Set(all.map(({ entry }) => entry.id)).size).toBe(1)
    expect(all.filter(({ isRepeat }) => !isRepeat)).toHaveLength(1)
    expect(await count()).toEqual({ n: 1 })
  })

  it('tells two buttons of one page apart', async () => {
    await enterOnRound(carer, { ...sent, grams: '78' }, hours(7))
    expect(await one('select count(*)::int as n from weight where grams = 78')).toEqual({ n: 1 })
  })

  it('taken away, the same twenty are doubled: nothing else holds them back', async () => {
    const many = Array.from({ length: 20 }, (_, n) => ({ ...sent, key: `without-key-${n}` }))
    await Promise.all(many.map(each => enterOnRound(carer, each, hours(7))))
    expect(await count()).toEqual({ n: 21 })
  })
})

describe('two versions', () => {
  const seen = async () =>
    one('select keeping_id as id from whereabouts where casualty_id = $1 and until is null', [THRUSH])
  const where = async () =>
    (await one('select enclosure_id from whereabouts where casualty_id = $1 and until is null', [THRUSH]))
      .enclosure_id

  async function waiting(at: number) {
    const { id } = await seen()
    await recordMoved(carer, THRUSH, { enclosureId: OTHER_CAGE }, hours(at + 1))
    const late = tap('not-there', { seenKeepingId: String(id), agoMs: String(2 * 3_600_000) })
    const { entry } = await enterOnRound(carer, late, hours(at + 2))
    expect(entry.state).toBe('waits')
    expect(await where()).toBe(OTHER_CAGE)
    expect(await enterOnRound(carer, late, hours(at + 3))).toMatchObject({ isRepeat: true })
    return entry
  }

  const owed = async (actor: PersonActor, at: number) =>
    (await readDue(actor, hours(at))).all.filter(({ about }) => about.kind === 'two-versions')

  it('wait for a person, who leaves what stands', async () => {
    const entry = await waiting(10)
    // Owed since it arrived by whoever may settle it: carers of the centre, and the desk.
    for (const actor of [carer, person(2, { role: 'coordinator' })]) {
      expect(await owed(actor, 13)).toMatchObject([
        { key: `two-versions:${entry.id}`, at: hours(12), about: { centreId: SOUTH } },
      ])
    }
    expect(await owed(stranger, 13)).toEqual([])
    await expect(settleWaiting(stranger, entry.id, false, hours(13))).rejects.toMatchObject({
      code: 'not-found',
    })
    await settleWaiting(carer, entry.id, false, hours(13))
    expect(await owed(carer, 13)).toEqual([])
    expect(await owed(person(2, { role: 'coordinator' }), 13)).toEqual([])
    expect(await where()).toBe(OTHER_CAGE)
    await expect(settleWaiting(carer, entry.id, true, hours(13))).rejects.toMatchObject({
      rule: 'round-settled-already',
    })
  })

  it('or what was tapped takes the place of the other, at its own time', async () => {
    const entry = await waiting(20)
    await settleWaiting(carer, entry.id, true, hours(24))
    expect(await where()).toBeNull()
    expect(
      (await one('select since from whereabouts where casualty_id = $1 and until is null', [THRUSH])).since,
    ).toEqual(hours(20))
  })

  it('a check that somebody else did with another result', async () => {
    const id = await check(THRUSH)
    await recordCheck(carer, id, { passed: true }, hours(25))
    const { entry } = await enterOnRound(carer, tap(`check ${id} no`), hours(26))
    expect(entry.state).toBe('waits')
    await settleWaiting(carer, entry.id, true, hours(27))
    expect(await one('select passed, done_at from check_due where id = $1', [id])).toEqual({
      passed: false,
      done_at: hours(26),
    })
  })
})

it('the round shows what waits, and of each line what can be tapped', async () => {
  const { id } = await one(
    'select keeping_id as id from whereabouts where casualty_id = $1 and until is null',
    [FLEDGLING],
  )
  await recordMoved(carer, FLEDGLING, { enclosureId: OTHER_CAGE }, hours(30))
  await enterOnRound(
    carer,
    { ...tap('not-there', { seenKeepingId: String(id) }), casualtyId: String(FLEDGLING) },
    hours(31),
  )
  const round = await readRound(carer, SOUTH, hours(32))
  expect(round.waiting.map(({ tapped, meanwhile }) => [tapped.reference, meanwhile.enclosure])).toEqual([
    ['test 21', 'E8'],
  ])
  const lines = round.rooms.flatMap(room => room.enclosures.flatMap(cage => cage.inside))
  const line = lines.find(animal => animal.id === FLEDGLING)?.line
  expect(line).toMatchObject({ grams: 77, stageNo: null, next: { no: 2 } })
})
