import { expect, test } from 'vitest'
import { bytesOf, numbersOf } from '#lib/domain/day-numbers.ts'

// IEEE 754: 1 is sign 0, exponent 1023, no fraction, so the bytes end in f0 3f, lowest first.
test('numbers are eight bytes each, lowest first', () => {
  expect([...bytesOf(Float64Array.of(1, -2))]).toEqual([
    0, 0, 0, 0, 0, 0, 0xf0, 0x3f, 0, 0, 0, 0, 0, 0, 0, 0xc0,
  ])
})

test('what is read is what was written, to the last bit, wherever the bytes lie', () => {
  const numbers = Float64Array.of(0.1 + 0.2, 5e-324, 1 / 3, -0, Number.MAX_VALUE)
  const shifted = new Uint8Array([7, ...bytesOf(numbers)]).subarray(1)
  expect(numbersOf(shifted)).toEqual(numbers)
  expect(Object.is(numbersOf(shifted)[3], -0)).toBe(true)
  expect(numbersOf(new Uint8Array())).toHaveLength(0)
})
