import { describe, expect, it } from 'vitest'
import { findTestInstant } from '#lib/service/clock.ts'
import { hashPassword } from '#lib/service/password.ts'
import { checkSignIn, findActor, getDemoPerson } from '#lib/service/sign-in.ts'
import { database } from '#tests/support/database.ts'

const { pool } = database

async function addPerson(email: string, password: string): Promise<number> {
  const { rows } = await pool.query<{ id: number }>(
    'insert into person (name, email, password_hash) values ($1, $2, $3) returning id',
    ['Nell Thrift', email, await hashPassword(password)],
  )
  const [person] = rows
  await pool.query("insert into person_role (person_id, role) values ($1, 'coordinator'), ($1, 'manager')", [
    person!.id,
  ])
  return person!.id
}

const codeOf = (work: Promise<unknown>) =>
  work.then(
    () => 'let in',
    thrown => `${(thrown as { code: string }).code} ${(thrown as { rule?: string }).rule}`,
  )

describe('signing in', () => {
  it('knows a person by e-mail in any case and by password', async () => {
    const personId = await addPerson('nell@example.org', 'seven grey herons')
    expect(await checkSignIn({ email: ' NELL@example.org', password: 'seven grey herons' })).toEqual({
      personId,
      epoch: 1,
    })
  })

  it('answers a wrong password and an unknown e-mail alike', async () => {
    await addPerson('ada@example.org', 'seven grey herons')
    const typed = [
      { email: 'ada@example.org', password: 'Seven grey herons' },
      { email: 'nobody@example.org', password: 'seven grey herons' },
    ]
    expect(await Promise.all(typed.map(one => codeOf(checkSignIn(one))))).toEqual([
      'rule sign-in-unknown',
      'rule sign-in-unknown',
    ])
  })

  it('lets nobody in who was switched off, by password or in the demonstration', async () => {
    const personId = await addPerson('off@example.org', 'seven grey herons')
    await pool.query('update person set is_active = false where id = $1', [personId])
    const password = checkSignIn({ email: 'off@example.org', password: 'seven grey herons' })
    expect(await codeOf(password)).toBe('rule sign-in-unknown')
    expect(await codeOf(getDemoPerson('off@example.org'))).toBe('not-found undefined')
  })
})

describe('a session', () => {
  it('has the roles of this moment', async () => {
    const personId = await addPerson('roles@example.org', 'x')
    const before = await findActor(personId, 1)
    await pool.query("delete from person_role where person_id = $1 and role = 'manager'", [personId])
    const after = await findActor(personId, 1)
    expect([before?.roles, after?.roles]).toEqual([
      [{ role: 'coordinator' }, { role: 'manager' }],
      [{ role: 'coordinator' }],
    ])
  })

  it('ends when the person is switched off or her sessions are ended', async () => {
    const personId = await addPerson('leaver@example.org', 'x')
    await pool.query('update person set session_epoch = 2 where id = $1', [personId])
    const ended = await findActor(personId, 1)
    const anew = await findActor(personId, 2)
    await pool.query('update person set is_active = false where id = $1', [personId])
    const off = await findActor(personId, 2)
    expect([ended, anew?.name, off]).toEqual([undefined, 'Nell Thrift', undefined])
  })
})

describe('the clock of tests', () => {
  it('says what was set, and nothing before', async () => {
    const before = await findTestInstant()
    await pool.query("insert into test_clock (at) values ('2026-03-28T22:40:00Z')")
    expect([before, await findTestInstant()]).toEqual([undefined, new Date('2026-03-28T22:40:00Z')])
  })
})
