import { expect, test } from 'vitest'
import { parse } from '#lib/domain/parse.ts'
import { VET_WEIGHT, vetWordBackInput, vetWordInput, WORD_DAYS_MAX } from '#lib/domain/vet-word.ts'
import { isFailure } from '#lib/kernel/failure.ts'

const NOW = new Date('2026-06-10T12:00:00Z')
const MOMENT = { zone: 'Europe/London', now: NOW }
const form = { at: '', stageNo: '2', longer: '2', unit: 'weeks', saidBy: ' Dr Thessaly ' }
const read = (change: Readonly<Record<string, unknown>> = {}) =>
  parse(vetWordInput(MOMENT), { ...form, ...change })
const refused = (change: Readonly<Record<string, unknown>>) => {
  try {
    read(change)
  } catch (thrown) {
    return isFailure(thrown) && [thrown.code, ...thrown.problems.map(({ field }) => field)]
  }
  return undefined
}

test('weeks and days are read as days, now where no time is said', () => {
  expect(read()).toEqual({ at: NOW, stageNo: 2, inDays: 14, saidBy: 'Dr Thessaly' })
  expect(read({ longer: '10', unit: 'days' }).inDays).toBe(10)
  expect(read({ longer: 3, unit: undefined }).inDays).toBe(3)
  expect(read({ at: '2026-06-01T09:30' }).at).toEqual(new Date('2026-06-01T08:30:00Z'))
})

test('from one day to two years, by somebody, not said tomorrow', () => {
  expect(WORD_DAYS_MAX).toBe(730)
  expect(read({ longer: '730', unit: 'days' }).inDays).toBe(730)
  expect(read({ longer: '104' }).inDays).toBe(728)
  for (const longer of ['0', '-3', '1.5', '105', 'soon', ''])
    expect(refused({ longer }), longer).toEqual(['invalid', 'longer'])
  expect(refused({ longer: '731', unit: 'days' })).toEqual(['invalid', 'longer'])
  expect(refused({ unit: 'months' })).toEqual(['invalid', 'unit'])
  expect(refused({ saidBy: '  ' })).toEqual(['invalid', 'saidBy'])
  expect(refused({ saidBy: 'x'.repeat(81) })).toEqual(['invalid', 'saidBy'])
  expect(refused({ at: '2026-06-11T12:00' })).toEqual(['invalid', 'at'])
})

test('is taken back by its number, and weighs three quarters', () => {
  expect(parse(vetWordBackInput, { wordId: '7' })).toEqual({ wordId: 7 })
  expect(VET_WEIGHT).toBe(0.75)
})
