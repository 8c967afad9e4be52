import { expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { VET_WEIGHT, WORD_UNITS } from '#lib/domain/vet-word.ts'
import { unitChoice, VET_WORD_LEANS, vetWordSaid, vetWordSentence } from '#lib/words/vet-word.ts'

const saidOn = dayOfDate('2026-11-28')

test('what was said, until when, by whom', () => {
  expect(vetWordSentence({ inDays: 14, saidBy: 'Dr Thessaly' }, saidOn)).toBe(
    'A vet thinks it needs about 14 more days here, until about 12 Dec (said on 28 Nov by Dr Thessaly).',
  )
  expect(vetWordSentence({ inDays: 1, saidBy: 'x' }, saidOn)).toContain('about 1 more day here')
  expect(vetWordSentence({ inDays: 365, saidBy: 'x' }, saidOn)).toContain('until about 28 November 2027')
  expect(vetWordSaid({ inDays: 14, saidBy: 'Dr Thessaly' })).toBe(
    'A vet says about 14 more days (Dr Thessaly)',
  )
})

test('the sentence about the weight is true', () => {
  expect(VET_WEIGHT).toBe(0.75)
  expect(VET_WORD_LEANS).toContain('three quarters')
})

test('units have names', () => {
  expect(WORD_UNITS.map(unitChoice)).toEqual(['Days', 'Weeks'])
})
