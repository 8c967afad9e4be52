import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { REVIEW_EVERY_DAYS, reviewState, sourcedMark } from '#lib/domain/review.ts'

describe('a review', () => {
  it('is due a year after the last, not a day before', () => {
    const last = dayOfDate('2025-11-29')
    expect(REVIEW_EVERY_DAYS).toBe(365)
    expect(reviewState('2025-11-29', last)).toBe('current')
    expect(reviewState('2025-11-29', dayOfDate('2026-11-29'))).toBe('current')
    expect(reviewState('2025-11-29', dayOfDate('2026-11-30'))).toBe('overdue')
    expect(reviewState(null, last)).toBe('never')
  })
})

describe('the source of a fact', () => {
  it.each([
    ['stays while the fact stays', 'x', 'R:S1', 'R:S1'],
    ['is ours once the fact is changed', 'y', 'R:S1', 'ours'],
    ['is the one that is named with the change', 'y', 'R:S2', 'R:S2'],
    ['may be corrected alone', 'x', 'CP', 'CP'],
  ])('%s', (_, said, mark, expected) => {
    expect(sourcedMark({ said: 'x', mark: 'R:S1' }, { said, mark }, 'ours')).toBe(expected)
  })
})
