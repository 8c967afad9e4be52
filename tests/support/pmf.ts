/** Distributions of counts for tests of judging. */
import fc from 'fast-check'

/** Any distribution over 0 .. 40 at most, with gaps, heaps and chances of next to nothing. */
export const anyPmf = fc
  .array(
    fc.oneof(
      fc.constant(0),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1e-15, noNaN: true }),
    ),
    { minLength: 1, maxLength: 40 },
  )
  .filter(weights => weights.some(weight => weight > 1e-3))
  .map(weights => {
    const total = weights.reduce((a, b) => a + b, 0)
    return weights.map(weight => weight / total)
  })

export const poissonPmf = (mean: number, top = Math.ceil(mean + 12 * Math.sqrt(mean) + 20)): number[] => {
  const pmf = [Math.exp(-mean)]
  for (let k = 1; k <= top; k++) pmf.push((pmf[k - 1]! * mean) / k)
  return pmf
}
