/**
 * Shortage on a chain of size classes when one animal may need any of several (its class is itself uncertain).
 * Promise: exact by the joint distribution of the class counts; states grow with the product of the counts, so this
 * is for small groups. Where every animal has one class, overflow.ts does the same in one dimension.
 */

/**
 * P(some animal has no proper place), the expected number without one, and what one more animal of each class adds
 * to it: P(max_(u<=s) X_u >= max(0, max_(u>s) X_u)), X_u = D_>=u - C_>=u.
 */
export type ChainShortage = {
  readonly shortProbability: number
  readonly expectedShort: number
  readonly priceByClass: readonly number[]
}

/** States beyond which the joint programme is refused. */
const STATES_MAX = 2_000_000

/**
 * `chances[i][s]`: P(animal i needs class s), smallest class first, row sums at most 1 (the rest: it needs none).
 * `capacities[s]`: enclosures of exactly class s. Animals are independent. Throws RangeError when too large.
 */
export function chainShortage(
  chances: readonly (readonly number[])[],
  capacities: readonly number[],
): ChainShortage {
  const side = chances.length + 1
  const states = side ** capacities.length
  if (states > STATES_MAX)
    throw new RangeError(`chances need at most ${STATES_MAX} joint states, got ${states}`)
  let joint = new Float64Array(states)
  joint[0] = 1
  for (const row of chances) joint = withAnimal(joint, row, side)
  let shortProbability = 0
  let expectedShort = 0
  const priceByClass = capacities.map(() => 0)
  joint.forEach((mass, state) => {
    const short = shortageIn(state, capacities, side)
    if (short > 0) shortProbability += mass
    expectedShort += short * mass
    capacities.forEach((_, s) => {
      priceByClass[s]! += mass * (shortageIn(state, capacities, side, s) - short)
    })
  })
  return { shortProbability, expectedShort, priceByClass }
}

/** The joint distribution after one more animal; class s counts in digit s of the state, base `side`. */
function withAnimal(joint: Float64Array, row: readonly number[], side: number): Float64Array<ArrayBuffer> {
  const none = 1 - row.reduce((sum, p) => sum + p, 0)
  const next = new Float64Array(joint.length)
  for (let state = 0; state < joint.length; state++) {
    const mass = joint[state]!
    if (mass === 0) continue
    next[state] = next[state]! + mass * none
    row.forEach((p, s) => {
      if (p > 0) next[state + side ** s] = next[state + side ** s]! + mass * p
    })
  }
  return next
}

/** max(0, max_s(D_>=s - C_>=s)) with perhaps one more of a class: overflow moves up from the smallest. */
function shortageIn(state: number, capacities: readonly number[], side: number, oneMoreOf = -1): number {
  let rest = state
  let overflow = 0
  capacities.forEach((capacity, s) => {
    const wanted = (rest % side) + (s === oneMoreOf ? 1 : 0)
    overflow = Math.max(0, overflow + wanted - capacity)
    rest = Math.floor(rest / side)
  })
  return overflow
}
