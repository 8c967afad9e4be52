import { expect, test } from 'vitest'
import { doubtFrom } from '#lib/domain/learned-doubt.ts'

const doubt = { poolId: '1:aviary', size: 5, from: 100, varianceByDay: Float64Array.of(1, 2, 3) }

test('the variances of the days asked for, the last one holding on', () => {
  expect([...doubtFrom(doubt, 100, 4)]).toEqual([1, 2, 3, 3])
  expect([...doubtFrom(doubt, 102, 2)]).toEqual([3, 3])
  expect([...doubtFrom(doubt, 98, 3)]).toEqual([0, 0, 1])
})
