import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { deliverDueMail, type Send } from '#lib/outbox/deliver.ts'
import { sendBy } from '#lib/outbox/smtp.ts'
import { hashPassword } from '#lib/service/password.ts'
import {
  askForReset,
  getWayIn,
  makePasswordLink,
  readPasswordLink,
  setPasswordByLink,
} from '#lib/service/password-link.ts'
import { checkSignIn, findActor } from '#lib/service/sign-in.ts'
import { database } from '#tests/support/database.ts'
import { type MailServer, startMailServer } from '#tests/support/mail-server.ts'

const { pool } = database
const NOON = new Date('2026-06-10T12:00:00Z')
const later = (seconds: number) => new Date(NOON.getTime() + seconds * 1000)
const from = (seconds = 0) => ({ address: '203.0.113.7', now: later(seconds) })
const HOUR = 3600
const DAY = 24 * HOUR
const NEW = { newPassword: 'nine white swans' }
const ADMIN = 'admin@example.org'
const urlOf = (token: string) => `https://desk.example.org/password/${token}`

let administrator: PersonActor
let mail: MailServer
let send: Send
let people = 0

// The mail server is set in the surroundings of these tests, which are read once.
Object.assign(process.env, {
  ROOSTWRIGHT_SMTP_URL: 'smtp://mail.example.org',
  ROOSTWRIGHT_MAIL_FROM: 'Desk <desk@example.org>',
})

beforeAll(async () => {
  mail = await startMailServer()
  send = sendBy(mail.url, 'Desk <desk@example.org>')
  const personId = await addPerson(ADMIN)
  administrator = { kind: 'person', personId, name: 'Ada', roles: [{ role: 'administrator' }] }
})
afterAll(() => mail.close())
beforeEach(async () => {
  mail.letters.length = 0
  mail.refuse = 0
  await pool.query('delete from outbox; delete from sign_in_wait')
})

async function addPerson(email: string, password: string | null = 'seven grey herons'): Promise<number> {
  const { rows } = await pool.query<{ id: number }>(
    'insert into person (name, email, password_hash) values ($1, $2, $3) returning id',
    ['Nell Thrift', email, password === null ? null : await hashPassword(password)],
  )
  return rows[0]!.id
}

async function somebody(password: string | null = 'seven grey herons') {
  people += 1
  const email = `person${people}@example.org`
  return { id: await addPerson(email, password), email }
}

const codeOf = (work: Promise<unknown>) =>
  work.then(
    () => 'let in',
    thrown => `${(thrown as { code: string }).code} ${(thrown as { rule?: string }).rule}`,
  )

/** What the newest letter leads to. */
function tokenIn(letter: string | undefined): string {
  return /\/password\/([\w-]{43})\b/.exec(letter ?? '')?.[1] ?? ''
}

async function invited(now = NOON) {
  const person = await somebody(null)
  await makePasswordLink(administrator, person.id, urlOf, now)
  await deliverDueMail(send, now)
  return { ...person, token: tokenIn(mail.letters.at(-1)) }
}

async function forgot(email: string, seconds = 0): Promise<void> {
  await (await askForReset({ email }, urlOf, from(seconds)))()
}

describe('an invitation', () => {
  it('comes by mail, says whom it is for and how long it works, and lets her choose a password', async () => {
    const { id, email, token } = await invited()
    const [letter] = mail.letters
    expect(letter).toMatch(new RegExp(`^To: ${email}`, 'm'))
    expect(letter).toMatch(/^From: Desk <desk@example\.org>/m)
    expect(letter).toContain('The link works once, for 7 days.')
    expect(await readPasswordLink(token, NOON)).toEqual({ email, name: 'Nell Thrift', isInvitation: true })
    const session = await setPasswordByLink(token, NEW, from(60))
    expect((await findActor(id, session.epoch))?.personId).toBe(id)
    const signedIn = checkSignIn({ email, password: NEW.newPassword }, { ...from(90), isDemo: false })
    expect(await codeOf(signedIn)).toBe('let in')
  })

  it('is kept as a hash alone, and its letter is forgotten once it has left', async () => {
    const { token } = await invited()
    const { rows } = await pool.query(`select to_jsonb(l)::text as kept from one_time_link l
      union all select to_jsonb(o)::text from outbox o union all select to_jsonb(a)::text from audit a`)
    expect(rows.length).toBeGreaterThan(2)
    expect(rows.filter(({ kept }) => kept.includes(token))).toEqual([])
  })

  it('works once, though two hands use it at the same time', async () => {
    const { token } = await invited()
    const tried = await Promise.all([1, 2, 3, 4].map(() => codeOf(setPasswordByLink(token, NEW, from()))))
    expect(tried.sort()).toEqual(['let in', 'rule link-used', 'rule link-used', 'rule link-used'])
    expect(await codeOf(readPasswordLink(token, NOON))).toBe('rule link-used')
  })

  it('runs out after a week, and a newer one takes it back', async () => {
    const { id, token } = await invited()
    expect(await codeOf(readPasswordLink(token, later(7 * DAY - 1)))).toBe('let in')
    expect(await codeOf(setPasswordByLink(token, NEW, from(7 * DAY)))).toBe('rule link-ran-out')
    await makePasswordLink(administrator, id, urlOf, later(HOUR))
    expect(await codeOf(setPasswordByLink(token, NEW, from(2 * HOUR)))).toBe('rule link-taken-back')
    await deliverDueMail(send, later(HOUR))
    expect(await codeOf(setPasswordByLink(tokenIn(mail.letters.at(-1)), NEW, from(2 * HOUR)))).toBe('let in')
  })

  it('opens nothing for who was switched off since, nor when it is guessed', async () => {
    const { id, token } = await invited()
    const guessed = ['', 'x', token.slice(0, 42), `${token}A`, 'A'.repeat(43), token.toLowerCase()]
    expect(await Promise.all(guessed.map(one => codeOf(setPasswordByLink(one, NEW, from()))))).toEqual(
      guessed.map(() => 'not-found undefined'),
    )
    await pool.query('update person set is_active = false where id = $1', [id])
    expect(await codeOf(setPasswordByLink(token, NEW, from()))).toBe('rule link-taken-back')
    expect(await codeOf(makePasswordLink(administrator, id, urlOf, NOON))).toBe('rule link-for-nobody')
  })

  it('keeps the link open while the chosen password is refused', async () => {
    const { token } = await invited()
    expect(await codeOf(setPasswordByLink(token, { newPassword: 'short' }, from()))).toBe('invalid undefined')
    expect(await codeOf(setPasswordByLink(token, NEW, from()))).toBe('let in')
  })

  it("is an administrator's to make, and says what it found", async () => {
    const { id } = await somebody(null)
    const manager: PersonActor = { ...administrator, roles: [{ role: 'manager' }] }
    expect(await codeOf(makePasswordLink(manager, id, urlOf, NOON))).toBe('forbidden undefined')
    expect(await getWayIn(administrator, id)).toEqual({ hasPassword: false, isMailed: true })
  })
})

describe('a forgotten password', () => {
  it('answers alike and waits alike for an e-mail that nobody has, and mails to nobody', async () => {
    const { email } = await somebody()
    const answers = async (typed: string) => {
      const said: string[] = []
      for (let tries = 0; tries < 7; tries++) said.push(await codeOf(forgot(typed)))
      return said
    }
    const known = await answers(email)
    expect(known).toEqual([...Array(5).fill('let in'), ...Array(2).fill('rule sign-in-wait')])
    expect(await answers('nobody@example.org')).toEqual(known)
    await deliverDueMail(send, NOON)
    expect(mail.letters).toHaveLength(1)
    expect(mail.letters[0]).toContain(email)
  })

  it('lets her set a new one for an hour, and ends every session', async () => {
    const { id, email } = await somebody()
    await forgot(email)
    await deliverDueMail(send, NOON)
    const token = tokenIn(mail.letters[0])
    expect(await codeOf(setPasswordByLink(token, NEW, from(HOUR)))).toBe('rule link-ran-out')
    await setPasswordByLink(token, NEW, from(HOUR - 1))
    expect(await findActor(id, 1)).toBeUndefined()
  })

  it('floods nobody: one letter a quarter of an hour', async () => {
    const { email } = await somebody()
    for (const seconds of [0, 60, 600, 899, 901]) await forgot(email, seconds)
    await deliverDueMail(send, later(1000))
    expect(mail.letters).toHaveLength(2)
  })
})

describe('mail on its way', () => {
  const stateOf = async () =>
    (
      await pool.query(
        `select tries, extract(epoch from due_at - $1)::int as due, sent_at is not null as sent,
        given_up_at is not null as gone, last_fault as fault, body is null as empty from outbox`,
        [NOON],
      )
    ).rows[0]

  it('is tried again after a growing pause while the server refuses, and leaves once', async () => {
    const { id } = await somebody(null)
    await makePasswordLink(administrator, id, urlOf, NOON)
    mail.refuse = 2
    expect(await deliverDueMail(send, NOON)).toEqual({ sent: 0, failed: 1 })
    expect(await stateOf()).toMatchObject({ tries: 1, due: 60, sent: false, fault: 'EMESSAGE 451' })
    expect(await deliverDueMail(send, later(59))).toEqual({ sent: 0, failed: 0 })
    expect(await deliverDueMail(send, later(60))).toEqual({ sent: 0, failed: 1 })
    expect(await stateOf()).toMatchObject({ tries: 2, due: 180 })
    expect(await deliverDueMail(send, later(180))).toEqual({ sent: 1, failed: 0 })
    expect(await stateOf()).toMatchObject({ sent: true, fault: null, empty: true })
    expect(await deliverDueMail(send, later(DAY))).toEqual({ sent: 0, failed: 0 })
    expect(mail.letters).toHaveLength(1)
  })

  it('leaves at least once though its process dies between sending and noting it', async () => {
    const { id } = await somebody(null)
    await makePasswordLink(administrator, id, urlOf, NOON)
    const dies: Send = async letter => {
      await send(letter)
      // As if it never came back: nothing is noted until the other process finds it due.
      await deliverDueMail(send, later(60))
    }
    await deliverDueMail(dies, NOON)
    expect(mail.letters).toHaveLength(2)
  })

  it('is shared out between processes', async () => {
    for (let nth = 0; nth < 8; nth++) {
      const { id } = await somebody(null)
      await makePasswordLink(administrator, id, urlOf, NOON)
    }
    await Promise.all([1, 2, 3, 4].map(() => deliverDueMail(send, NOON)))
    expect(mail.letters).toHaveLength(8)
    expect(new Set(mail.letters.map(tokenIn)).size).toBe(8)
  })

  it('is given up after about a day of tries, and forgotten', async () => {
    const { id } = await somebody(null)
    await makePasswordLink(administrator, id, urlOf, NOON)
    mail.refuse = 99
    let at = 0
    for (let tries = 0; tries < 40 && !(await stateOf()).gone; tries++) {
      at = (await stateOf()).due
      await deliverDueMail(send, later(at))
    }
    expect(await stateOf()).toMatchObject({ gone: true, empty: true })
    expect(at / HOUR).toBeGreaterThan(16)
    expect(at / HOUR).toBeLessThan(30)
  })

  it('says nothing of the server when there is none to reach', async () => {
    const { id } = await somebody(null)
    await makePasswordLink(administrator, id, urlOf, NOON)
    await deliverDueMail(sendBy('smtp://127.0.0.1:1', 'desk@example.org'), NOON)
    expect((await stateOf()).fault).toBe('ESOCKET')
  })
})
