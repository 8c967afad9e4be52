import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  massOf,
  NO_OVERFLOW,
  newScratch,
  overflowInto,
  type Slice,
  stillUnplaced,
} from '#lib/forecast/overflow.ts'
import { newWork } from '#lib/numerics/work.ts'

const uniform = (top: number): Slice => ({ pmf: new Float64Array(top + 1).fill(1 / (top + 1)), at: 0, top })

test('what overflows through a chain is the deficiency of the chain, and one more raises it with its price', () => {
  const kind = fc.record({ top: fc.nat(4), capacity: fc.nat(4) })
  fc.assert(
    fc.property(fc.array(kind, { minLength: 1, maxLength: 4 }), fc.nat(), (kinds, pick) => {
      const mine = pick % kinds.length
      const scratch = newScratch()
      let state = NO_OVERFLOW
      for (const { top, capacity } of kinds)
        state = overflowInto(state, uniform(top), capacity, scratch, newWork())
      let expected = 0
      for (let k = 0; k <= state.top; k++) expected += k * state.pmf[k]!
      let unplaced = NO_OVERFLOW
      for (const [u, { top, capacity }] of kinds.entries()) {
        const step = u < mine ? overflowInto : stillUnplaced
        unplaced = step(unplaced, uniform(top), capacity, scratch, newWork())
      }
      const brute = byEnumeration(kinds, mine)
      expect(expected).toBeCloseTo(brute.expected, 12)
      expect(massOf(unplaced)).toBeCloseTo(brute.price, 12)
    }),
  )
})

/** All demands equally likely; the deficiency by its definition, with and without one more. */
function byEnumeration(kinds: readonly { top: number; capacity: number }[], mine: number) {
  const deficiency = (demands: readonly number[]) => {
    let worst = 0
    for (let s = 0; s < kinds.length; s++) {
      let excess = 0
      for (let u = s; u < kinds.length; u++) excess += demands[u]! - kinds[u]!.capacity
      worst = Math.max(worst, excess)
    }
    return worst
  }
  let expected = 0
  let price = 0
  let cases = 0
  const walk = (demands: readonly number[]) => {
    if (demands.length === kinds.length) {
      cases++
      expected += deficiency(demands)
      price += deficiency(demands.with(mine, demands[mine]! + 1)) - deficiency(demands)
      return
    }
    for (let k = 0; k <= kinds[demands.length]!.top; k++) walk([...demands, k])
  }
  walk([])
  return { expected: expected / cases, price: price / cases }
}

test('grows its buffers when a day needs more', () => {
  const scratch = newScratch()
  const wide = overflowInto(uniform(400), uniform(300), 10, scratch, newWork())
  expect(wide.top).toBe(690)
  expect(massOf(wide)).toBeCloseTo(1, 12)
})
