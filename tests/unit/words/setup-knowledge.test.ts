import { describe, expect, it } from 'vitest'
import { overdueWords, reviewWords, rulesAnswer } from '#lib/words/setup-knowledge.ts'

describe('a review in words', () => {
  it('says the day as people say it', () => {
    expect(reviewWords('overdue', '2025-09-01')).toBe('Review overdue: last on 1 September 2025')
    expect(reviewWords('current', '2026-11-01')).toBe('Reviewed on 1 November 2026')
    expect(reviewWords('never', null)).toBe('Not reviewed yet')
    expect(overdueWords('2025-09-01')).toMatch(/^The review is overdue: the last was on 1 September 2025/)
  })

  it('is counted over a list', () => {
    expect(rulesAnswer(37, 2)).toBe('37 rules; 2 reviews overdue')
    expect(rulesAnswer(1, 0)).toBe('1 rule')
  })
})
