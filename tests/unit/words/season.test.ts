import { expect, it } from 'vitest'
import { overwinterWords, seasonLine, unlikelyWords } from '#lib/words/season.ts'

it('says a season with its source, a weight against winter, an unlikely weight as a question', () => {
  const swallow = {
    kind: 'migration',
    opens: '04-01',
    closes: '09-15',
    grams: null,
    mark: 'CP',
    note: 'out by mid September',
  } as const
  expect(seasonLine(swallow)).toBe(
    'Released between 1 April and 15 September: out by mid September (common practice, no source)',
  )
  expect(overwinterWords({ kind: 'too light', grams: 420, wanted: 600, mark: 'M' })).toBe(
    '420\u00a0g: before winter it needs 600\u00a0g (from memory)',
  )
  expect(unlikelyWords(95, { rule: 'jump', share: -0.604, before: 240, days: 2 })).toBe(
    '95\u00a0g is 60\u00a0% less than 2 days before (240\u00a0g). Is it right?',
  )
})
