import { expect, test } from 'vitest'
import { erlangB } from '#lib/numerics/erlang-b.ts'

// Computed in R; the loads for 1 % loss also agree with the classical printed tables (4.46 and 29.0).
const LOSSES = [
  [1, 1, 0.5],
  [2, 2, 0.4],
  [5, 5, 0.2848678213309],
  [10, 10, 0.2145823431073],
  [20, 20, 0.158891961542],
  [100, 100, 0.0757004527109],
  [10, 4.4611768576, 0.01],
  [40, 29.0074249782, 0.01],
] as const

test('loses what the tables say', () => {
  for (const [places, load, loss] of LOSSES)
    expect(Math.abs(erlangB(places, load) / loss - 1)).toBeLessThan(1e-9)
})

test('without places everyone is turned away, without load nobody', () => {
  expect(erlangB(0, 3)).toBe(1)
  expect(erlangB(4, 0)).toBe(0)
})

test('refuses half a place and a negative load', () => {
  expect(() => erlangB(1.5, 2)).toThrow('places needs a whole number, got 1.5')
  expect(() => erlangB(2, -1)).toThrow('load needs a number of at least 0, got -1')
})
