import { expect, test } from 'vitest'
import { newRemember } from '#lib/kernel/remember.ts'

test('a value is made once for its key, undefined too', () => {
  const remember = newRemember<{ of: string } | undefined>(4)
  let made = 0
  const make = (value: { of: string } | undefined) => () => {
    made++
    return value
  }
  const first = remember('a', make({ of: 'a' }))
  expect(remember('a', make({ of: 'other' }))).toBe(first)
  expect(remember('none', make(undefined))).toBeUndefined()
  expect(remember('none', make({ of: 'none' }))).toBeUndefined()
  expect(made).toBe(2)
})

test('what was asked for lately stays while others come and go; never more than twice the number are kept', () => {
  const most = 10
  const remember = newRemember<number>(most)
  let made = 0
  const ask = (key: string) => remember(key, () => ++made)
  const dear = ask('dear')
  for (let n = 0; n < 1000; n++) {
    ask(`passing ${n}`)
    expect(ask('dear')).toBe(dear)
  }
  expect(made).toBe(1001)
  let kept = 0
  for (let n = 999; n >= 0; n--) {
    const before = made
    if (ask(`passing ${n}`) <= before) kept++
    else break
  }
  expect(kept).toBeGreaterThan(0)
  expect(kept).toBeLessThanOrEqual(2 * most)
})

test('a maker that throws leaves nothing behind', () => {
  const remember = newRemember<number>(2)
  expect(() =>
    remember('a', () => {
      throw new RangeError('no')
    }),
  ).toThrow(RangeError)
  expect(remember('a', () => 7)).toBe(7)
})
