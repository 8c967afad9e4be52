import { expect, test } from 'vitest'
import { alikeSentence, betterSentence, heldSentence, tooShortSentence } from '#lib/words/judged.ts'

test('one sentence with its range', () => {
  expect(heldSentence(28, 0.79, { low: 0.72, high: 0.85 }).replaceAll('\u00a0', ' ')).toBe(
    '28 days later, 79 % of what came lay in the middle where 80 % should (19 chances in 20: 72 to 85 %).',
  )
  expect(heldSentence(1, 0.8, null)).toContain('1 day later')
  expect(heldSentence(1, 0.8, null)).toContain('(too few days to say how sure that is)')
})

test("a guess that would have done better is named, one that can't be told apart too", () => {
  expect(betterSentence(['same as today'])).toBe('Guessing the same as today would have done better.')
  expect(betterSentence([])).toBe('')
  expect(alikeSentence(['same week last year', 'seasonal mean'])).toBe(
    "It can't be told apart from guessing the same as this week last year or the usual of the season.",
  )
  expect(alikeSentence([])).toBe('')
})

test('too little history says what is there, what it takes, and what is shown until then', () => {
  expect(tooShortSentence(28, 40, 424)).toBe(
    "Records go back 40 days; to judge what is said of 28 days later they must go back 424. Until then you see the plan's forecast, marked so.",
  )
})
