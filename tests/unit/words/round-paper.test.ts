import { expect, it } from 'vitest'
import { mustWords, nextWords, PAPER } from '#lib/words/round-paper.ts'

it('what must be known at the door begins with what is worst', () => {
  expect(mustWords({ isAlone: true, handling: ['talons', 'bill-eyes'], isSuspect: true })).toEqual([
    PAPER.suspect,
    PAPER.alone,
    'Control the feet first, thick gloves',
    'Eye protection, hold the head',
  ])
  expect(mustWords({ isAlone: false, handling: [], isSuspect: false })).toEqual([])
})

it('what is next has its day where there is one', () => {
  expect(nextWords({ slug: 'radiograph', dueOn: 20_784 })).toBe('Radiograph 27 Nov')
  expect(nextWords({ slug: 'radiograph', dueOn: null })).toBe('Radiograph')
})
