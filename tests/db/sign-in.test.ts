import { beforeEach, describe, expect, it } from 'vitest'
import { DEMO_PASSWORD } from '#lib/domain/demo-password.mjs'
import { WAIT_RULES } from '#lib/domain/sign-in-wait.ts'
import { changeOwnPassword, endOwnSessions, getOwnPage } from '#lib/service/account.ts'
import { findTestInstant } from '#lib/service/clock.ts'
import { hashPassword } from '#lib/service/password.ts'
import { checkSignIn, findActor, getDemoPerson } from '#lib/service/sign-in.ts'
import { database } from '#tests/support/database.ts'
import { makeWorld } from '#tests/support/heart.ts'

const { pool } = database
const NOON = new Date('2026-06-10T12:00:00Z')
const DESK = '203.0.113.7'
const HOME = '198.51.100.20'
const PASSWORD = 'seven grey herons'

const from = (address = DESK, seconds = 0) => ({
  address,
  now: new Date(NOON.getTime() + seconds * 1000),
  isDemo: false,
})

let people = 0

async function addPerson(password = PASSWORD): Promise<{ personId: number; email: string }> {
  people += 1
  const email = `person${people}@example.org`
  const { rows } = await pool.query<{ id: number }>(
    'insert into person (name, email, password_hash) values ($1, $2, $3) returning id',
    ['Nell Thrift', email, await hashPassword(password)],
  )
  const [person] = rows
  await pool.query("insert into person_role (person_id, role) values ($1, 'coordinator'), ($1, 'manager')", [
    person!.id,
  ])
  return { personId: person!.id, email }
}

const codeOf = (work: Promise<unknown>) =>
  work.then(
    () => 'let in',
    thrown => `${(thrown as { code: string }).code} ${(thrown as { rule?: string }).rule}`,
  )

const guess = (email: string, where = from()) => codeOf(checkSignIn({ email, password: 'a guess' }, where))
const right = (email: string, where = from()) => codeOf(checkSignIn({ email, password: PASSWORD }, where))

const UNKNOWN = 'rule sign-in-unknown'
const WAIT = 'rule sign-in-wait'

beforeEach(() => pool.query('delete from sign_in_wait'))

describe('signing in', () => {
  it('knows a person by e-mail in any case and by password', async () => {
    const { personId, email } = await addPerson()
    expect(await checkSignIn({ email: ` ${email.toUpperCase()}`, password: PASSWORD }, from())).toEqual({
      personId,
      epoch: 1,
    })
  })

  it('answers a wrong password, an unknown e-mail and somebody without a password alike', async () => {
    const { email } = await addPerson()
    const invited = await addPerson()
    await pool.query('update person set password_hash = null where id = $1', [invited.personId])
    const tried = [guess(email), guess('nobody@example.org'), right(invited.email)]
    expect(await Promise.all(tried)).toEqual([UNKNOWN, UNKNOWN, UNKNOWN])
  })

  it('lets nobody in who was switched off, by password or in the demonstration', async () => {
    const { personId, email } = await addPerson()
    await pool.query('update person set is_active = false where id = $1', [personId])
    expect(await right(email)).toBe(UNKNOWN)
    expect(await codeOf(getDemoPerson(email, from()))).toBe('not-found undefined')
  })

  it("takes the demonstration's password in the demonstration only, though the row has its hash", async () => {
    const { email } = await addPerson(DEMO_PASSWORD)
    const typed = { email, password: DEMO_PASSWORD }
    expect(await codeOf(checkSignIn(typed, from()))).toBe(UNKNOWN)
    expect(await codeOf(checkSignIn(typed, { ...from(), isDemo: true }))).toBe('let in')
  })
})

describe('tries in a row', () => {
  it('are five, then wait; the right password is heard after the wait and not before', async () => {
    const { email } = await addPerson()
    for (let tries = 0; tries < WAIT_RULES.pair.free; tries++) expect(await guess(email)).toBe(UNKNOWN)
    expect([await guess(email), await right(email)]).toEqual([WAIT, WAIT])
    await expect(checkSignIn({ email, password: PASSWORD }, from(DESK, 4))).rejects.toMatchObject({
      data: { say: 'Too many tries: the next one is heard in 6 seconds', seconds: 6 },
    })
    expect(await right(email, from(DESK, 10))).toBe('let in')
    // And five are free again.
    for (let tries = 0; tries < WAIT_RULES.pair.free; tries++)
      expect(await guess(email, from(DESK, 20))).toBe(UNKNOWN)
  })

  it('of an unknown account wait exactly as those of a known one', async () => {
    const { email } = await addPerson()
    const answers = async (account: string) => {
      const said: string[] = []
      for (let tries = 0; tries < 8; tries++) said.push(await guess(account, from(HOME, tries * 3)))
      return said
    }
    expect(await answers('nobody@example.org')).toEqual(await answers(email))
  })

  it('are no more when they come all at once', async () => {
    const { email } = await addPerson()
    const said = await Promise.all(Array.from({ length: 40 }, () => guess(email)))
    const heard = said.filter(answer => answer === UNKNOWN).length
    expect(heard).toBeGreaterThan(0)
    expect(heard).toBeLessThanOrEqual(WAIT_RULES.pair.free)
    expect(said.filter(answer => answer === WAIT)).toHaveLength(40 - heard)
  })

  it('from a thousand addresses shut nobody out where she was let in before, nor for long elsewhere', async () => {
    const { email, personId } = await addPerson()
    expect(await right(email)).toBe('let in')
    for (let nth = 0; nth < 60; nth++) {
      await guess(email, from(`192.0.2.${nth}`, nth * 40))
    }
    const after = 60 * 40
    await pool.query("update sign_in_wait set free_at = $1 where kind = 'account'", [
      new Date(NOON.getTime() + (after + 30) * 1000),
    ])
    expect(await right(email, from(HOME, after))).toBe(WAIT)
    expect(await right(email, from(DESK, after))).toBe('let in')
    expect(await right(email, from(HOME, after + 31))).toBe('let in')
    const { rows } = await pool.query(
      'select count(*)::int as refused from sign_in where person_id = $1 and not was_let_in',
      [personId],
    )
    expect(rows[0]).toEqual({ refused: 60 })
  })

  it('at many accounts from one address wait too', async () => {
    const said: string[] = []
    for (let nth = 0; nth <= WAIT_RULES.address.free; nth++) said.push(await guess(`x${nth}@example.org`))
    expect([said.at(-2), said.at(-1)]).toEqual([UNKNOWN, WAIT])
    expect(await guess('x1@example.org', from(HOME))).toBe(UNKNOWN)
  })

  it('keep nothing that was typed', async () => {
    await guess('my secret typed in the wrong field')
    const { rows } = await pool.query<{ key: string }>('select key from sign_in_wait')
    expect(rows.length).toBe(3)
    expect(rows.map(row => row.key).filter(key => !/^[\w-]{43}$/.test(key))).toEqual([])
  })
})

describe('a session', () => {
  it('has the roles of this moment', async () => {
    const { personId } = await addPerson()
    const before = await findActor(personId, 1)
    await pool.query("delete from person_role where person_id = $1 and role = 'manager'", [personId])
    const after = await findActor(personId, 1)
    expect([before?.roles, after?.roles]).toEqual([
      [{ role: 'coordinator' }, { role: 'manager' }],
      [{ role: 'coordinator' }],
    ])
  })

  it('ends when the person is switched off or her sessions are ended', async () => {
    const { personId } = await addPerson()
    await pool.query('update person set session_epoch = 2 where id = $1', [personId])
    const ended = await findActor(personId, 1)
    const anew = await findActor(personId, 2)
    await pool.query('update person set is_active = false where id = $1', [personId])
    const off = await findActor(personId, 2)
    expect([ended, anew?.name, off]).toEqual([undefined, 'Nell Thrift', undefined])
  })
})

describe("a person's own page", () => {
  it('shows her roles with their places and her sign-ins, the newest first', async () => {
    const client = await pool.connect()
    await makeWorld(client)
    client.release()
    const { personId, email } = await addPerson()
    await pool.query("insert into person_role (person_id, role, centre_id) values ($1, 'carer', 1)", [
      personId,
    ])
    await guess(email, from(HOME))
    await right(email, from(DESK, 60))
    const actor = (await findActor(personId, 1))!
    const page = await getOwnPage(actor)
    expect(page.roles.map(({ role, place }) => `${role} ${place}`)).toEqual([
      'coordinator null',
      'manager null',
      'carer North',
    ])
    expect(page.signIns).toMatchObject([
      { address: DESK, how: 'password', wasLetIn: true },
      { address: HOME, wasLetIn: false },
    ])
  })

  it('changes the password when the old one is right, and ends every session but the one that goes on', async () => {
    const { personId, email } = await addPerson()
    const actor = (await findActor(personId, 1))!
    const change = (oldPassword: string, newPassword: string) =>
      changeOwnPassword(actor, { oldPassword, newPassword }, from())
    expect(await codeOf(change('a guess', 'nine white swans'))).toBe('rule old-password-wrong')
    expect(await codeOf(change(PASSWORD, 'short'))).toBe('invalid undefined')
    expect(await codeOf(change(PASSWORD, DEMO_PASSWORD))).toBe('invalid undefined')
    const session = await change(PASSWORD, 'nine white swans')
    expect(session).toEqual({ personId, epoch: 2 })
    expect([await findActor(personId, 1), (await findActor(personId, 2))?.personId]).toEqual([
      undefined,
      personId,
    ])
    expect(await right(email)).toBe(UNKNOWN)
    const { rows } = await pool.query('select action from audit where subject_id = $1', [String(personId)])
    expect(rows).toEqual([{ action: 'password changed' }])
  })

  it('asks for the old password in turn, so that an open page is no way to guess it', async () => {
    const { personId } = await addPerson()
    const actor = (await findActor(personId, 1))!
    const typed = { oldPassword: 'a guess', newPassword: 'nine white swans' }
    const said: string[] = []
    for (let tries = 0; tries < 6; tries++) said.push(await codeOf(changeOwnPassword(actor, typed, from())))
    expect(said.slice(4)).toEqual(['rule old-password-wrong', WAIT])
  })

  it('signs her out everywhere', async () => {
    const { personId } = await addPerson()
    await endOwnSessions((await findActor(personId, 1))!, NOON)
    expect(await findActor(personId, 1)).toBeUndefined()
  })
})

describe('the clock of tests', () => {
  it('says what was set, and nothing before', async () => {
    const before = await findTestInstant()
    await pool.query("insert into test_clock (at) values ('2026-03-28T22:40:00Z')")
    expect([before, await findTestInstant()]).toEqual([undefined, new Date('2026-03-28T22:40:00Z')])
  })
})
