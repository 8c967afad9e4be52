/**
 * Rights by row, past the pages: a carer of one centre and the animals of another, a vet of one practice and what is put
 * to another. What a person may not see is not there for her (404), whatever she writes into the form.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { readAskPage } from '#lib/service/ask.ts'
import { answerByPhone } from '#lib/service/ask-answer.ts'
import { recordCheckOfCard } from '#lib/service/casualty-change.ts'
import { readDue } from '#lib/service/due.ts'
import { holdPlace, releaseHold } from '#lib/service/hold.ts'
import { recordArrived, recordMoved, recordUndone } from '#lib/service/record.ts'
import { identify } from '#lib/service/record-stay.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const [OURS, THEIRS, UNDERWAY, FOREIGN_CASE] = [10, 12, 16, 18] as const
const [CAGE, THEIR_AVIARY] = [7, 6] as const

const person = (role: PersonActor['roles'][number]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [role],
})
const coordinator = person({ role: 'coordinator' })
const carer = (centreId: number) => person({ role: 'carer', centreId })
const vet = (practiceId: number) => person({ role: 'vet', practiceId })
const THERE = carer(2)

const rows = async (sql: string, ...values: unknown[]) => (await pool.query(sql, values)).rows
async function codeOf(work: Promise<unknown>): Promise<string> {
  const thrown = await work.then(
    () => 'let through',
    (refused: unknown) => refused,
  )
  if (typeof thrown === 'string') return thrown
  if (!(thrown instanceof Failure)) throw thrown
  return thrown.code
}

let theirKeeping = 0
let otherPractice = 0

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
  await recordArrived(coordinator, OURS, { centreId: '2', enclosureId: String(CAGE) }, NOON)
  await recordArrived(coordinator, THEIRS, { centreId: '1' }, NOON)
  theirKeeping = (await recordMoved(coordinator, THEIRS, { to: 'centre', centreId: '1' }, hours(1))).made
  await recordArrived(coordinator, FOREIGN_CASE, { centreId: '1' }, NOON)
  const [added] = await rows(
    `insert into practice (name, phone, latitude, longitude) values ('Other practice', '0399', 54, -3) returning id`,
  )
  otherPractice = added.id
  await recordMoved(
    coordinator,
    FOREIGN_CASE,
    { to: 'practice', practiceId: String(otherPractice) },
    hours(1),
  )
})

const facts = () =>
  rows('select casualty_id, keeper, centre_id, since from whereabouts where until is null order by 1')

describe('a carer of one centre', () => {
  it('can not fetch an animal that another centre has, by naming her own as where it goes', async () => {
    const before = await facts()
    const to = { centreId: '2', enclosureId: String(CAGE) }
    expect(await codeOf(recordArrived(THERE, THEIRS, to, hours(2)))).toBe('not-found')
    expect(await codeOf(recordMoved(THERE, THEIRS, { to: 'centre', ...to }, hours(2)))).toBe('not-found')
    const hold = { enclosureId: String(CAGE), startsAt: hours(5), needsIsolation: 'no' }
    expect(await codeOf(holdPlace(THERE, THEIRS, hold, hours(2)))).toBe('not-found')
    // Nor one that a practice has, for which no place is kept with her.
    expect(await codeOf(recordArrived(THERE, FOREIGN_CASE, to, hours(2)))).toBe('not-found')
    expect(await facts()).toEqual(before)
  })

  it('takes in what comes to her door from the road, and moves on what she has', async () => {
    expect(await codeOf(recordArrived(THERE, UNDERWAY, { centreId: '2' }, hours(2)))).toBe('let through')
    expect(await codeOf(recordMoved(THERE, OURS, { to: 'centre', centreId: '1' }, hours(2)))).toBe(
      'let through',
    )
    // From then on it is the other's.
    expect(await codeOf(recordMoved(THERE, OURS, { to: 'centre', centreId: '2' }, hours(3)))).toBe(
      'not-found',
    )
    expect(await codeOf(recordMoved(carer(1), OURS, { to: 'centre', centreId: '2' }, hours(3)))).toBe(
      'let through',
    )
  })

  it('gets at no fact, check or kept place of another by writing it into the form of her own animal', async () => {
    const before = await rows('select count(*) from keeping')
    const undone = recordUndone(THERE, OURS, String(theirKeeping), hours(4))
    expect(await codeOf(undone)).toBe('not-found')
    const corrected = { to: 'centre', centreId: '2', supersedes: String(theirKeeping) }
    expect(await codeOf(recordMoved(THERE, OURS, corrected, hours(4)))).toBe('not-found')
    expect(await rows('select count(*) from keeping')).toEqual(before)
    const [named] = await rows(
      `insert into identification (entry_id, casualty_id, species_slug, age) values (1, $1, 'sparrow', 'adult') returning id`,
      THEIRS,
    )
    const renamed = { species: 'blackbird', age: 'adult', supersedes: String(named.id) }
    expect(await codeOf(identify(THERE, OURS, renamed, hours(4)))).toBe('not-found')

    const [check] = await rows(
      `insert into check_due (casualty_id, stage_no, check_slug, what, due_on, who, mark)
       values ($1, 1, 'weigh', 'weight', '2026-06-10', 'carer', 'CP') returning id`,
      THEIRS,
    )
    const checked = recordCheckOfCard(THERE, { checkId: String(check.id), passed: 'yes' }, hours(4))
    expect(await codeOf(checked)).toBe('not-found')
    expect(await rows('select done_at from check_due where id = $1', check.id)).toEqual([{ done_at: null }])

    const { made } = await holdPlace(
      coordinator,
      THEIRS,
      { enclosureId: String(THEIR_AVIARY), startsAt: hours(8), needsIsolation: 'no' },
      hours(4),
    )
    expect(await codeOf(releaseHold(THERE, made, hours(4)))).toBe('not-found')
  })
})

describe('a vet of one practice', () => {
  it('reads in her list what is put to her own practice only, and answers at no desk', async () => {
    const asks = await rows(
      `insert into ask (casualty_id, practice_id, state, put_at, lapses_at)
       select $1, p, 'put', $2::timestamptz, $2::timestamptz + interval '3 hours' from unnest($3::int[]) p
       returning id, practice_id`,
      FOREIGN_CASE,
      hours(3),
      [1, otherPractice],
    )
    for (const { practice_id } of asks) {
      const { all } = await readDue(vet(practice_id), hours(4))
      expect(all.map(({ key }) => key)).toEqual(
        asks.filter(ask => ask.practice_id === practice_id).map(ask => `vet-ask:${ask.id}`),
      )
    }
    const { all } = await readDue(vet(9999), hours(4))
    expect(all).toEqual([])
    for (const { id } of asks) {
      expect(await codeOf(readAskPage(vet(otherPractice), id))).toBe('forbidden')
      expect(await codeOf(answerByPhone(vet(otherPractice), id, {}, hours(4)))).toBe('forbidden')
    }
  })
})
