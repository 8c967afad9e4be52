import fc from 'fast-check'
import { expect, test } from 'vitest'
import { convolveCounts, delayBy } from '#lib/numerics/convolution.ts'
import { newWork } from '#lib/numerics/work.ts'

test('sums two dice', () => {
  const die = Float64Array.from([0, 1, 1, 1, 1, 1, 1])
  const out = new Float64Array(13)
  expect(convolveCounts(die, 0, 6, die, 0, 6, out, 0, newWork())).toBe(12)
  expect(Array.from(out)).toEqual([0, 0, 1, 2, 3, 4, 5, 6, 5, 4, 3, 2, 1])
})

test('does not depend on which comes first, and changes neither', () => {
  const numbers = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 })
  fc.assert(
    fc.property(numbers, numbers, (x, y) => {
      const [a, b] = [Float64Array.from(x), Float64Array.from(y)]
      const there = new Float64Array(x.length + y.length)
      const back = new Float64Array(x.length + y.length)
      convolveCounts(a, 0, x.length - 1, b, 0, y.length - 1, there, 0, newWork())
      convolveCounts(b, 0, y.length - 1, a, 0, x.length - 1, back, 0, newWork())
      for (let k = 0; k < there.length; k++) expect(there[k]).toBeCloseTo(back[k]!, 14)
      expect([Array.from(a), Array.from(b)]).toEqual([x, y])
    }),
  )
})

test('delays starts day by day, for an even and an odd number of days', () => {
  for (const days of [5, 6]) {
    const starts = Float64Array.from({ length: days }, (_, d) => (d === 0 ? 0 : d))
    const delay = Float64Array.from({ length: days + 1 }, (_, k) => 1 / (k + 1))
    const out = new Float64Array(days).fill(10)
    delayBy(starts, delay, out, newWork())
    for (let d = 0; d < days; d++) {
      let sum = 10
      for (let e = 0; e <= d; e++) sum += starts[e]! * delay[d - e]!
      expect(out[d]).toBeCloseTo(sum, 13)
    }
  }
})

// Eick, Massey, Whitt 1993: rate 20 + 8 sin(2 pi t / 365), exponential stay of mean 30; 608.4686740837 at t = 30. The
// whole-day sum differs because rate and survival both change within a day: by about (8 turn / 12) x 1 at most.
test('a yearly sine of arrivals through an exponential stay', () => {
  const turn = (2 * Math.PI) / 365
  const past = 1825
  const starts = Float64Array.from({ length: past + 30 }, (_, i) => {
    const t = i - past
    return 20 + (8 * (Math.cos(turn * t) - Math.cos(turn * (t + 1)))) / turn
  })
  const stays = Float64Array.from(
    { length: past + 31 },
    (_, k) => 30 * (Math.exp(-k / 30) - Math.exp(-(k + 1) / 30)),
  )
  const out = new Float64Array(starts.length)
  delayBy(starts, stays, out, newWork())
  expect(Math.abs(out[past + 29]! - 608.4686740837)).toBeLessThan((8 * turn) / 12)
})
