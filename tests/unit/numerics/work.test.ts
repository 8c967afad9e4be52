import { expect, test } from 'vitest'
import { convolveCounts } from '#lib/numerics/convolution.ts'
import { newWork } from '#lib/numerics/work.ts'

test('counts one multiply-add a product summed', () => {
  const work = newWork()
  expect(work.multiplyAdds).toBe(0)
  convolveCounts(
    Float64Array.of(0.5, 0.5),
    0,
    1,
    Float64Array.of(0.2, 0.3, 0.5),
    0,
    2,
    new Float64Array(4),
    0,
    work,
  )
  expect(work.multiplyAdds).toBe(6)
})
