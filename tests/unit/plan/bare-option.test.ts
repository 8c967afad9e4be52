import { describe, expect, it } from 'vitest'
import { askFirst, bareOption, optionKey } from '#lib/plan/bare-option.ts'
import { centre } from '#tests/support/placement.ts'

describe('askFirst', () => {
  const offering = (left: number) => ({ ...centre('ash', 6), offer: { places: 4, left } })

  it('asks nothing within the standing offer', () => {
    expect(askFirst(offering(2), 2)).toBeNull()
  })

  it('asks beyond it, with the figures and the number to ring', () => {
    expect(askFirst(offering(2), 3)).toEqual({ phone: '07000 000 100', offered: 4, left: 2, wanted: 3 })
    expect(askFirst(offering(-1), 1)).toMatchObject({ left: 0 })
  })

  it('asks where nothing was agreed', () => {
    expect(askFirst({ ...centre('ash', 6), offer: null }, 1)).toMatchObject({ offered: null, wanted: 1 })
  })
})

describe('optionKey', () => {
  it('is made of the kind and the way', () => {
    expect(optionKey('keep till morning', ['ash', 'birch'])).toBe('keep-till-morning:ash>birch')
    expect(optionKey('report', [])).toBe('report')
  })
})

describe('bareOption', () => {
  it('claims nothing', () => {
    expect(bareOption('advice', null)).toMatchObject({
      path: [],
      release: null,
      weakest: null,
      door: null,
      total: 0,
    })
  })
})
