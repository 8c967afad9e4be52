import { beforeAll, describe, expect, it } from 'vitest'
import { dayOfInstant } from '#lib/domain/day.ts'
import { readAskDesk, readAsksOfCasualty, readAskText } from '#lib/service/ask.ts'
import { answerByPhone, askNext, makeAskLink, takeAskBack } from '#lib/service/ask-answer.ts'
import { answerByLink, readAnswerPage } from '#lib/service/ask-link.ts'
import { sayNoMore, sayRounds } from '#lib/service/centre-word.ts'
import { recordMoved, recordOutcome } from '#lib/service/record.ts'
import { putToPractice } from '#lib/service/referral.ts'
import { tick } from '#lib/service/ticker.ts'
import {
  COORDINATOR,
  decideAndAsk,
  EAST,
  LAPSE,
  makeAskWorld,
  minutes,
  NORTH,
  OPTIONS,
  SOUTH,
} from '#tests/support/ask-world.ts'
import { database } from '#tests/support/database.ts'
import { hours } from '#tests/support/heart.ts'

const { pool } = database
const PRACTICE = 1
const SECOND = 2
let animals: number[] = []
let next = 0

/** An animal no other test has touched. */
const animal = (): number => animals[next++]!

beforeAll(async () => {
  const client = await pool.connect()
  animals = await makeAskWorld(client, 30)
  client.release()
})

async function one<T extends object>(sql: string, values: readonly unknown[]): Promise<T> {
  const { rows } = await pool.query(sql, [...values])
  return rows[0] as T
}

const asksOf = async (casualty: number) =>
  (await readAsksOfCasualty(COORDINATOR, casualty)).map(ask => [ask.to.name, ask.shown, ask.tries.length])

/** Where places are kept for it now, and how those ended that are not. */
async function holds(casualty: number): Promise<unknown> {
  const { rows } = await pool.query(
    `select e.centre_id as centre, k.state from claim k join enclosure e on e.id = k.enclosure_id
      where k.casualty_id = $1 and k.kind = 'hold' order by k.id`,
    [casualty],
  )
  return rows.map(row => [row.centre, row.state])
}

describe('silence', () => {
  it('moves on to the next contact, the next centre, and what the standing offer covers', async () => {
    const casualty = animal()
    await decideAndAsk(casualty)
    expect(await asksOf(casualty)).toEqual([['North', 'held', 1]])
    expect(await holds(casualty)).toEqual([[NORTH, 'live']])

    await tick(minutes(LAPSE - 1))
    expect(await asksOf(casualty)).toEqual([['North', 'held', 1]])
    await tick(minutes(LAPSE))
    expect(await asksOf(casualty)).toEqual([['North', 'held', 2]])
    expect(await holds(casualty)).toEqual([[NORTH, 'live']])

    await tick(minutes(2 * LAPSE))
    expect(await asksOf(casualty)).toEqual([
      ['North', 'silent', 2],
      ['South', 'held', 1],
    ])
    expect(await holds(casualty)).toEqual([
      [NORTH, 'expired'],
      [SOUTH, 'live'],
    ])

    await tick(minutes(3 * LAPSE))
    expect(await asksOf(casualty)).toEqual([
      ['North', 'silent', 2],
      ['South', 'silent', 1],
      ['East', 'agreed', 0],
    ])
    expect(await holds(casualty)).toEqual([
      [NORTH, 'expired'],
      [SOUTH, 'expired'],
      [EAST, 'live'],
    ])
    const plan = await one<{ centre: number; version: number }>(
      `select s.centre_id as centre, p.version_no as version from casualty_plan p
         join casualty_stage s on s.casualty_plan_id = p.id where p.casualty_id = $1 order by p.id desc limit 1`,
      [casualty],
    )
    expect(plan).toEqual({ centre: EAST, version: 3 })
  })

  it('says so when nobody is left, and promises the finder a call', async () => {
    const casualty = animal()
    const ask = await decideAndAsk(casualty, OPTIONS.slice(1, 2), hours(1))
    await tick(minutes(LAPSE, hours(1)))
    expect(await asksOf(casualty)).toEqual([['South', 'silent', 1]])
    expect(await holds(casualty)).toEqual([[SOUTH, 'expired']])
    const calls = await pool.query(
      `select b.what, b.due_at from call_back b join ask a on a.call_id = b.call_id where a.id = $1 order by b.id`,
      [ask],
    )
    expect(calls.rows.map(row => row.what)).toEqual([
      'Ring the finder with the answer of South',
      'Nobody is left to ask after South: place it anew and ring the finder',
    ])
  })

  it('passes over a centre that takes no more, and mails once to whoever has an address', async () => {
    const casualty = animal()
    const at = hours(2)
    const ask = await decideAndAsk(casualty, OPTIONS, at)
    await sayNoMore(COORDINATOR, SOUTH, { day: String(dayOfInstant(at, 'Europe/London') + 2) }, at)
    await askNext(COORDINATOR, ask, minutes(1, at))
    expect(await asksOf(casualty)).toEqual([['North', 'held', 2]])
    await askNext(COORDINATOR, ask, minutes(2, at))
    expect(await asksOf(casualty)).toEqual([
      ['North', 'silent', 2],
      ['East', 'agreed', 0],
    ])
    const mail = await pool.query(`select to_address, body from outbox where key like $1`, [`ask ${ask} %`])
    expect(mail.rows.map(row => row.to_address)).toEqual(['ada@example.org'])
    expect(mail.rows[0].body).toMatch(/http:\/\/localhost:3000\/answer\/[\w-]{43}\n/)
    await pool.query('update centre_word set lifted_at = $1', [minutes(3, at)])
  })
})

describe('a centre that can not feed so often', () => {
  const askedOf = async (rounds: string, at: Date) => {
    const casualty = animal()
    await pool.query(`update casualty set age = 'young' where id = $1`, [casualty])
    const ask = await decideAndAsk(casualty, OPTIONS, at)
    await sayRounds(COORDINATOR, SOUTH, { rounds }, at)
    await answerByPhone(COORDINATOR, ask, { say: 'no', by: 'Ada Fenwick' }, minutes(1, at))
    await pool.query('update centre_word set lifted_at = $1 where lifted_at is null', [minutes(2, at)])
    return (await asksOf(casualty)).map(([name]) => name)
  }

  it('is passed over for a nestling, and asked where it said enough', async () => {
    await pool.query(`
      insert into species_group select (jsonb_populate_record(g, '{"slug": "small-songbirds", "name": "Songbirds"}')).*
        from species_group g where slug = 'small-birds';
      update species set group_slug = 'small-songbirds' where slug = 'blackbird'`)
    expect(await askedOf('14', hours(60))).toEqual(['North', 'East'])
    expect(await askedOf('28', hours(61))).toEqual(['North', 'South'])
    await pool.query(`update species set group_slug = 'small-birds' where slug = 'blackbird'`)
  })
})

describe('an answer on the phone', () => {
  it('of a centre keeps its place until the finder comes', async () => {
    const casualty = animal()
    const ask = await decideAndAsk(casualty, OPTIONS, hours(3))
    await answerByPhone(COORDINATOR, ask, { say: 'yes', by: 'Ada Fenwick' }, minutes(9, hours(3)))
    const kept = await one<{ expected_at: Date; expires_at: Date }>(
      `select expected_at, expires_at from claim where casualty_id = $1 and state = 'live'`,
      [casualty],
    )
    expect(kept).toEqual({
      expected_at: minutes(39, hours(3)),
      expires_at: minutes(39 + 240, hours(3)),
    })
    await tick(hours(4))
    expect(await asksOf(casualty)).toEqual([['North', 'agreed', 1]])
  })

  it('that says no gives the place up and asks the next centre at once', async () => {
    const casualty = animal()
    const ask = await decideAndAsk(casualty, OPTIONS, hours(5))
    await answerByPhone(COORDINATOR, ask, { say: 'no', by: 'Ada', reason: 'Two on nights only' }, hours(5))
    expect(await asksOf(casualty)).toEqual([
      ['North', 'refused', 1],
      ['South', 'held', 1],
    ])
    expect(await holds(casualty)).toEqual([
      [NORTH, 'given-up'],
      [SOUTH, 'live'],
    ])
    await expect(answerByPhone(COORDINATOR, ask, { say: 'yes', by: 'Ada' }, hours(5))).rejects.toMatchObject({
      rule: 'ask-answered-already',
    })
  })

  it('comes too late once the ask ran out or was taken back', async () => {
    const casualty = animal()
    const ask = await decideAndAsk(casualty, OPTIONS.slice(0, 1), hours(6))
    await takeAskBack(COORDINATOR, ask, hours(6))
    expect(await holds(casualty)).toEqual([[NORTH, 'given-up']])
    await expect(answerByPhone(COORDINATOR, ask, { say: 'yes', by: 'Ada' }, hours(6))).rejects.toMatchObject({
      code: 'taken',
      rule: 'ask-taken-back',
    })
  })

  it('is written down by whoever may ask, and by no other', async () => {
    const ask = await decideAndAsk(animal(), OPTIONS, hours(6))
    for (const role of [{ role: 'carer', centreId: NORTH }, { role: 'manager' }] as const) {
      const actor = { ...COORDINATOR, roles: [role] }
      await expect(answerByPhone(actor, ask, { say: 'yes', by: 'X' }, hours(6))).rejects.toMatchObject({
        code: 'forbidden',
      })
    }
    await takeAskBack(COORDINATOR, ask, hours(6))
  })
})

describe('a link', () => {
  const tokenIn = (link: string) => link.split('/').at(-1) ?? ''

  it('shows one case, says that it was seen, takes one answer and then shows nothing more', async () => {
    const casualty = animal()
    const at = hours(7)
    const ask = await decideAndAsk(casualty, OPTIONS, at)
    const link = await makeAskLink(COORDINATOR, ask, at)
    const token = tokenIn(link)
    expect(link).toBe(`http://localhost:3000/answer/${token}`)
    const page = await readAnswerPage(token, minutes(1, at))
    expect(page).toMatchObject({ kind: 'open', one: { askId: ask, species: 'Blackbird', heldAt: 'Asks' } })
    expect(await asksOf(casualty)).toEqual([['North', 'seen', 1]])
    await readAnswerPage(token, minutes(2, at))
    const { opened } = await one<{ opened: number }>(
      `select count(*)::int as opened from audit where action = 'link opened' and subject_id =
         (select l.id::text from one_time_link l where l.ask_id = $1 order by l.id desc limit 1)`,
      [ask],
    )
    expect(opened).toBe(2)
    await answerByLink(token, { say: 'yes', by: 'Ada Fenwick' }, minutes(3, at))
    expect(await asksOf(casualty)).toEqual([['North', 'agreed', 1]])
    expect(await readAnswerPage(token, minutes(4, at))).toEqual({
      kind: 'answered',
      phone: '1',
      isYes: true,
      by: 'Ada Fenwick',
      at: minutes(3, at),
      comesAt: null,
    })
    await expect(answerByLink(token, { say: 'no', by: 'Ada' }, minutes(5, at))).rejects.toMatchObject({
      rule: 'link-over',
    })
  })

  it('opens nothing once a newer one was made, the ask went on, or the token is no token', async () => {
    const at = hours(8)
    const ask = await decideAndAsk(animal(), OPTIONS, at)
    const first = tokenIn(await makeAskLink(COORDINATOR, ask, at))
    const second = tokenIn(await makeAskLink(COORDINATOR, ask, at))
    expect(await readAnswerPage(first, at)).toEqual({ kind: 'over', phone: '1' })
    expect((await readAnswerPage(second, at)).kind).toBe('open')
    await askNext(COORDINATOR, ask, at)
    await askNext(COORDINATOR, ask, at)
    expect(await readAnswerPage(second, at)).toEqual({ kind: 'over', phone: '1' })
    expect(await readAnswerPage(`${second.slice(0, -1)}!`, at)).toEqual({ kind: 'unknown' })
    expect(await readAnswerPage('x'.repeat(43), at)).toEqual({ kind: 'unknown' })
    expect(await readAnswerPage(second, hours(8 + 24 * 4))).toEqual({ kind: 'over', phone: '1' })
  })
})

describe('a practice', () => {
  const put = (casualty: number, practiceId: number, at: Date) =>
    putToPractice(
      COORDINATOR,
      casualty,
      {
        practiceId: String(practiceId),
        what: 'Pin the leg',
        homeCentreId: String(NORTH),
        offers: 'Cage rest',
      },
      at,
    )

  it('answers yes with a time, which books it, keeps the place afterwards, makes the checks and takes others back', async () => {
    const casualty = animal()
    const at = hours(9)
    await recordMoved(COORDINATOR, casualty, { to: 'centre', centreId: String(NORTH), enclosureId: '9' }, at)
    const [ask, other] = [await put(casualty, PRACTICE, at), await put(casualty, SECOND, at)]
    await expect(answerByPhone(COORDINATOR, ask, { say: 'yes', by: 'Vet' }, at)).rejects.toMatchObject({
      rule: 'ask_vets_yes_has_a_time',
      field: 'comesAt',
    })
    await answerByPhone(COORDINATOR, ask, { say: 'yes', by: 'Ines Hollow', comesAt: hours(30) }, at)
    expect(await asksOf(casualty)).toEqual([
      ['Practice', 'agreed', 1],
      ['Second practice', 'taken back', 1],
    ])
    expect(await holds(casualty)).toEqual([[NORTH, 'live']])
    const { rows: checks } = await pool.query(
      `select check_slug, what, due_on::text as due from check_due where casualty_id = $1 order by due_on`,
      [casualty],
    )
    expect(checks).toEqual([
      { check_slug: 'vet-exam', what: 'Practice: Pin the leg', due: '2026-06-11' },
      { check_slug: 'second-look', what: 'eats, stands, dressing dry after the vet', due: '2026-06-12' },
    ])
    const { at: leaves } = await one<{ at: Date }>(
      `select at from departure where casualty_id = $1 and state = 'booked'`,
      [casualty],
    )
    expect(leaves).toEqual(hours(30))
    await expect(
      answerByPhone(COORDINATOR, other, { say: 'yes', by: 'Second', comesAt: hours(31) }, at),
    ).rejects.toMatchObject({ code: 'taken', rule: 'ask-taken-back' })
    await expect(put(casualty, SECOND, at)).rejects.toMatchObject({ rule: 'referral-agreed' })
  })

  it('is asked once at a time; its no leaves the referral open to others', async () => {
    const casualty = animal()
    const at = hours(10)
    const ask = await put(casualty, PRACTICE, at)
    await expect(put(casualty, PRACTICE, at)).rejects.toMatchObject({ rule: 'practice-asked-already' })
    await answerByPhone(COORDINATOR, ask, { say: 'no', by: 'Vet', reason: 'No theatre today' }, at)
    const second = await put(casualty, SECOND, at)
    await tick(minutes(LAPSE, at))
    expect(await asksOf(casualty)).toEqual([
      ['Practice', 'refused', 1],
      ['Second practice', 'silent', 1],
    ])
    const { referrals } = await one<{ referrals: number }>(
      'select count(distinct referral_id)::int as referrals from ask where id = any ($1)',
      [[ask, second]],
    )
    expect(referrals).toBe(1)
  })

  it('is shown what it decides on, gaps marked, and nothing of the finder', async () => {
    const casualty = animal()
    const at = hours(11)
    await pool.query(
      `update arrival set found_words = 'behind the blue gate' where id = (select arrival_id from casualty where id = $1)`,
      [casualty],
    )
    await pool.query('insert into weight (entry_id, casualty_id, at, grams) values (1, $1, $2, 92)', [
      casualty,
      at,
    ])
    const ask = await put(casualty, PRACTICE, at)
    const link = await makeAskLink(COORDINATOR, ask, at)
    const text = await readAskText(COORDINATOR, ask, link)
    expect(text).toContain('Weight at first: 92 g on 11 June')
    expect(text).toContain('Asked: Pin the leg')
    expect(text).toContain('Offered afterwards: Cage rest')
    expect(text).toContain(link)
    // Fields of a referral letter: common practice, no source.
    for (const gap of ['both eyes', 'body condition', 'blood', 'last food', 'treated so far']) {
      expect(text.toLowerCase().split('not recorded:')[1]).toContain(gap)
    }
    const page = await readAnswerPage(link.split('/').at(-1) ?? '', at)
    expect(JSON.stringify([page, text])).not.toContain('blue gate')
  })

  it('hears nothing more of an animal whose case is closed', async () => {
    const casualty = animal()
    const at = hours(12)
    const ask = await put(casualty, PRACTICE, at)
    const link = await makeAskLink(COORDINATOR, ask, at)
    await recordOutcome(COORDINATOR, casualty, { alive: 'alive', whereNow: 'got away' }, at)
    expect(await readAnswerPage(link.split('/').at(-1) ?? '', at)).toEqual({ kind: 'over', phone: '1' })
  })
})

it('lists what waits, those due first, with the number to ring', async () => {
  const at = hours(40)
  const [later, sooner] = [
    await decideAndAsk(animal(), OPTIONS, minutes(5, at)),
    await decideAndAsk(animal(), OPTIONS, at),
  ]
  const desk = await readAskDesk(COORDINATOR, minutes(6, at))
  const ours = desk.open.filter(({ id }) => id === later || id === sooner)
  expect(ours.map(({ id, tries }) => [id, tries.at(-1)?.phone])).toEqual([
    [sooner, '0311'],
    [later, '0311'],
  ])
})
