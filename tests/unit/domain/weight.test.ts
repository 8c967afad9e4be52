import { describe, expect, it } from 'vitest'
import { unlikelyWeight } from '#lib/domain/weight.ts'

const at = (day: number) => new Date(Date.UTC(2026, 5, day))
const adult = { lowG: 150, highG: 300, age: 'adult' } as const
const young = { ...adult, age: 'young' } as const

describe('a weight is asked about', () => {
  it('after a jump within two weeks, and not after a small change or a long time', () => {
    const before = { at: at(1), grams: 240 }
    expect(unlikelyWeight({ at: at(3), grams: 95 }, before, young)).toEqual({
      rule: 'jump',
      share: 95 / 240 - 1,
      before: 240,
      days: 2,
    })
    expect(unlikelyWeight({ at: at(3), grams: 200 }, before, adult)).toBeUndefined()
    expect(unlikelyWeight({ at: at(28), grams: 95 }, before, young)).toBeUndefined()
  })

  it('where a digit slipped, whatever was before', () => {
    expect(unlikelyWeight({ at: at(1), grams: 2100 }, undefined, adult)).toEqual({
      rule: 'too heavy',
      usual: 300,
    })
    expect(unlikelyWeight({ at: at(1), grams: 21 }, undefined, adult)).toEqual({
      rule: 'too light',
      usual: 150,
    })
  })

  it('not of young that are light or grow fast, nor of a species whose weight nobody knows', () => {
    expect(unlikelyWeight({ at: at(1), grams: 21 }, undefined, young)).toBeUndefined()
    expect(unlikelyWeight({ at: at(8), grams: 50 }, { at: at(1), grams: 22 }, young)).toBeUndefined()
    const unknown = { lowG: null, highG: null, age: 'adult' } as const
    expect(unlikelyWeight({ at: at(1), grams: 9000 }, undefined, unknown)).toBeUndefined()
  })
})
