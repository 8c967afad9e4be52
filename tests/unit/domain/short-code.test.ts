import { expect, it } from 'vitest'
import { parse } from '#lib/domain/parse.ts'
import { ownCodeInput, shortCodeInput } from '#lib/domain/short-code.ts'
import { isFailure } from '#lib/kernel/failure.ts'

function reasonOf(work: () => unknown): string | undefined {
  try {
    work()
    return undefined
  } catch (thrown) {
    return isFailure(thrown) ? thrown.problems[0]?.reason : String(thrown)
  }
}

it('initials count however they are typed', () => {
  expect(parse(shortCodeInput, { initials: ' ob ', shortCode: '4071' })).toEqual({
    initials: 'OB',
    shortCode: '4071',
  })
  for (const initials of ['O', 'ABCDE', 'O1', 'Ø']) {
    expect(reasonOf(() => parse(shortCodeInput, { initials, shortCode: '4071' }))).toBe('not-initials')
  }
  for (const shortCode of ['407', '123456789', '40a1']) {
    expect(reasonOf(() => parse(shortCodeInput, { initials: 'OB', shortCode }))).toBe('not-short-code')
  }
})

it('a code that everybody tries first is not chosen', () => {
  for (const shortCode of ['0000', '77777', '1234', '456789', '9876', '3210']) {
    expect(reasonOf(() => parse(ownCodeInput, { initials: 'OB', shortCode }))).toBe('code-easily-guessed')
  }
  expect(parse(ownCodeInput, { initials: 'OB', shortCode: '1243' }).shortCode).toBe('1243')
})
