/**
 * A sum that keeps what rounding would lose.
 * Promise: the error is about one rounding of the result, whatever the order of the terms (Neumaier 1974, a
 * compensated sum). Any finite terms; the empty sum is 0.
 */

/**
 * The sum of the first `length` terms (all of them unless said).
 * Cost: four additions a term. Errors: none; non-finite terms give a non-finite sum.
 */
export function neumaierSum(terms: ArrayLike<number>, length = terms.length): number {
  let sum = 0
  let lost = 0
  for (let i = 0; i < length; i++) {
    const term = terms[i]!
    const next = sum + term
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum
    sum = next
  }
  return sum + lost
}
