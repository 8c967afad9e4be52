import { expect, it } from 'vitest'
import { centreContact, contactsForm, isReachable } from '#lib/domain/centre-contact.ts'

const somebody = {
  name: 'Ada Fenwick',
  phone: '07700 900301',
  email: null,
  fromMinute: null,
  untilMinute: null,
}
const between = (fromMinute: number, untilMinute: number) => ({ fromMinute, untilMinute })

it('rings nobody outside of their hours, over midnight too', () => {
  expect([480, 719, 720, 479].map(minute => isReachable(between(480, 720), minute))).toEqual([
    true,
    true,
    false,
    false,
  ])
  expect([1200, 1439, 0, 479, 480, 1199].map(minute => isReachable(between(1200, 480), minute))).toEqual([
    true,
    true,
    true,
    true,
    false,
    false,
  ])
  expect(isReachable(somebody, 185)).toBe(true)
})

it('wants both hours or none, and an end that is not the beginning', () => {
  const ok = (change: object) => centreContact.safeParse({ ...somebody, ...change }).success
  expect(ok({})).toBe(true)
  expect(ok(between(480, 1200))).toBe(true)
  expect(ok({ fromMinute: 480 })).toBe(false)
  expect(ok({ untilMinute: 480 })).toBe(false)
  expect(ok(between(480, 480))).toBe(false)
  expect(ok({ email: 'not an address' })).toBe(false)
})

it('reads the lines of its form in order and leaves empty ones out', () => {
  const line = { name: ' Ada Fenwick ', phone: '07700 900301', email: '', fromMinute: '', untilMinute: '' }
  const empty = { name: '', phone: '', email: '', fromMinute: '', untilMinute: '' }
  const night = {
    ...line,
    name: 'Bo Alder',
    email: 'bo@example.org',
    fromMinute: '20:00',
    untilMinute: '8:00',
  }
  expect(contactsForm.parse({ contacts: [line, empty, night] })).toEqual({
    contacts: [somebody, { ...somebody, name: 'Bo Alder', email: 'bo@example.org', ...between(1200, 480) }],
  })
  const wrong = contactsForm.safeParse({ contacts: [line, { ...night, untilMinute: '' }] })
  expect(wrong.error?.issues[0]?.path).toEqual(['contacts', 1, 'untilMinute'])
})
