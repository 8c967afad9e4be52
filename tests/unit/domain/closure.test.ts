import { describe, expect, test } from 'vitest'
import { closure, isClosedAt } from '#lib/domain/closure.ts'

const startsAt = new Date('2026-11-25T08:00:00Z')
const endsAt = new Date('2026-11-27T08:00:00Z')

describe('a closure', () => {
  test('ends after it starts, or not yet', () => {
    const repair = { enclosureId: 1, startsAt, endsAt: null, reason: 'Net torn' }
    expect(
      [null, endsAt, startsAt].map(end => closure.safeParse({ ...repair, endsAt: end }).success),
    ).toEqual([true, true, false])
  })

  test('holds from its start up to its end', () => {
    const at = (text: string, end: Date | null = endsAt) =>
      isClosedAt([{ startsAt, endsAt: end }], new Date(text))
    expect([at('2026-11-25T07:59:59Z'), at('2026-11-25T08:00:00Z'), at('2026-11-27T08:00:00Z')]).toEqual([
      false,
      true,
      false,
    ])
    expect([at('2027-11-27T08:00:00Z', null), isClosedAt([], startsAt)]).toEqual([true, false])
  })
})
