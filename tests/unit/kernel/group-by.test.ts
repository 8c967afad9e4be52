import { expect, it } from 'vitest'
import { groupBy } from '#lib/kernel/group-by.ts'

it('keeps the order in which keys and rows first appear', () => {
  const groups = groupBy([3, 1, 4, 1, 5, 9], n => (n % 2 === 0 ? 'even' : 'odd'))
  expect([...groups]).toEqual([
    ['odd', [3, 1, 1, 5, 9]],
    ['even', [4]],
  ])
})

it('has no group without rows', () => {
  expect(groupBy([], String).size).toBe(0)
})
