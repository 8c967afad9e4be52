import { describe, expect, test } from 'vitest'
import { ROLES } from '#lib/authz/actor.ts'
import { newPassword, PASSWORD_MIN, person, ROLE_NAMES } from '#lib/domain/person.ts'

const role = (name: string, centreId: number | null = null, practiceId: number | null = null) => ({
  role: name,
  centreId,
  practiceId,
})
const accepts = (...roles: ReturnType<typeof role>[]) =>
  person.safeParse({ name: 'Wren Ashby', email: 'wren@coast.example', phone: null, roles }).success

describe('a person', () => {
  test('has roles that name their place and no other', () => {
    expect(accepts(role('coordinator'))).toBe(true)
    expect(accepts(role('carer', 1))).toBe(true)
    expect(accepts(role('vet', null, 1))).toBe(true)
    expect(accepts(role('carer'))).toBe(false)
    expect(accepts(role('vet'))).toBe(false)
    expect(accepts(role('manager', 1))).toBe(false)
    expect(accepts(role('carer', 1, 1))).toBe(false)
    expect(accepts()).toBe(false)
  })

  test('has a role once, but may care at two centres', () => {
    expect(accepts(role('carer', 1), role('carer', 2))).toBe(true)
    expect(accepts(role('carer', 1), role('carer', 1))).toBe(false)
  })

  test('has an e-mail address in lower case', () => {
    const read = person.parse({
      name: 'A',
      email: ' Wren@Coast.example ',
      phone: null,
      roles: [role('manager')],
    })
    expect(read.email).toBe('wren@coast.example')
    expect(person.safeParse({ ...read, email: 'wren' }).success).toBe(false)
  })

  test('has the roles that permissions know', () => {
    expect(ROLE_NAMES).toEqual(ROLES)
  })
})

test('a password has a least length', () => {
  expect(
    [PASSWORD_MIN, PASSWORD_MIN - 1].map(length => newPassword.safeParse('x'.repeat(length)).success),
  ).toEqual([true, false])
})
