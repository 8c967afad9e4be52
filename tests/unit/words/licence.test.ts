import { expect, it } from 'vitest'
import { clockWords, leftWords, ruleWords } from '#lib/words/licence.ts'

it('says whose clock runs out when, and a rule that does not hold here', () => {
  const clock = { days: 15, on: 20620, holder: 'authorised person', isRunning: true } as const
  expect(clockWords(clock, 20615)).toMatch(/^day 15 for an authorised person: .*, in 5 days$/)
  expect(leftWords(10, 9)).toBe('runs out tomorrow')
  expect(leftWords(10, 11)).toBe('run out')
  expect(ruleWords({ jurisdiction: 'Scotland', meaning: 'vets up to 42 days', applies: false })).toBe(
    'Scotland: vets up to 42 days (does not hold here)',
  )
})
