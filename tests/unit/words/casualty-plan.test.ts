import { expect, it } from 'vitest'
import { endsOfStage, lengthOfStage, monthDayWords } from '#lib/words/casualty-plan.ts'

const estimate = {
  stage: 'limited activity',
  ready: { kind: 'length', length: { medianDays: 35.2, p90Days: 55 } },
  shares: { onward: 0.86, died: 0.06, euthanased: 0.08, left: 0 },
  died: { medianDays: 2, p90Days: 31 },
  euthanased: { medianDays: 1, p90Days: 9 },
} as const

it('says a length, the first day of a check that bars, a date gate, and how a stage ends', () => {
  expect(lengthOfStage(estimate)).toBe('usually 35 days, nine of ten within 55 days')
  expect(lengthOfStage({ ...estimate, leastDays: 21 })).toMatch(/, not before day 21$/)
  const ready = {
    kind: 'date gate',
    opens: '03-20',
    closes: '05-31',
    minDays: 10,
    lag: { medianDays: 12, p90Days: 30 },
  } as const
  expect(lengthOfStage({ ...estimate, ready })).toBe(
    'from 20 March until 31 May, at least 10 days, then usually 12 days',
  )
  expect(endsOfStage(estimate)).toBe('goes on 86\u00a0%, dies 6\u00a0%, euthanased by a vet 8\u00a0%')
  expect(monthDayWords('09-01')).toBe('1 September')
})
