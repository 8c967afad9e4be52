import { expect, it } from 'vitest'
import { asideInput } from '#lib/domain/move-aside.ts'
import { TODAY } from '#tests/support/forecasting.ts'

const input = asideInput(TODAY) // 25 November 2026
const said = { casualtyId: '1', toCentreId: '2', reason: 'settled here', words: '', untilOn: '' }

it('stands until something changes where no day is given', () => {
  expect(input.parse(said)).toEqual({ casualtyId: 1, toCentreId: 2, reason: 'settled here' })
})

it.each([
  ['2026-11-25', false],
  ['2026-11-26', true],
  ['2027-11-25', true],
  ['2027-11-26', false],
  ['2026-02-30', false],
])('until %s: %s', (untilOn, isFine) => {
  expect(input.safeParse({ ...said, untilOn }).success).toBe(isFine)
})

it('says another reason in words', () => {
  expect(input.safeParse({ ...said, reason: 'other' }).success).toBe(false)
  expect(input.safeParse({ ...said, reason: 'other', words: 'Its mate is here' }).success).toBe(true)
})
