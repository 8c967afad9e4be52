import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import {
  blankable,
  checkboxText,
  clockText,
  decimalText,
  integerText,
  listText,
  localDateTimeText,
  optionalText,
  plainDateText,
} from '#lib/domain/text.ts'

const LONDON = 'Europe/London'

describe('text becomes a value and back', () => {
  test('for whole numbers', () => {
    fc.assert(fc.property(fc.integer(), n => z.decode(integerText, z.encode(integerText, n)) === n))
    expect(integerText.safeParse('1.5').success).toBe(false)
    expect(z.decode(integerText, ' 12 ')).toBe(12)
  })

  test('for numbers, with a comma too', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e6, max: 1e6 }), n => {
        expect(z.decode(decimalText, z.encode(decimalText, n / 64))).toBe(n / 64)
      }),
    )
    expect(z.decode(decimalText, '0,5')).toBe(0.5)
    expect(decimalText.safeParse('half').success).toBe(false)
  })

  test('for a minute of the day', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1440 }), m => z.decode(clockText, z.encode(clockText, m)) === m),
    )
    expect(['24:00', '8:05', '08:60', '25:00'].map(text => clockText.safeParse(text).success)).toEqual([
      true,
      true,
      false,
      false,
    ])
  })

  test('for a date, and only one that exists', () => {
    expect(
      ['2026-02-28', '2026-02-30', '26.11.2026'].map(text => plainDateText.safeParse(text).success),
    ).toEqual([true, false, false])
  })

  test('for an instant on the wall clock, summer and winter', () => {
    const codec = localDateTimeText(LONDON)
    expect(z.decode(codec, '2026-07-01T08:00')).toEqual(new Date('2026-07-01T07:00:00Z'))
    expect(z.decode(codec, '2026-11-26T08:00')).toEqual(new Date('2026-11-26T08:00:00Z'))
    expect(codec.safeParse('2026-02-30T08:00').success).toBe(false)
    const minutes = fc.integer({ min: 29_000_000, max: 30_000_000 })
    fc.assert(
      fc.property(minutes, minute => {
        const at = new Date(minute * 60_000)
        const again = z.decode(codec, z.encode(codec, at))
        // An hour comes twice in autumn: the first of the two is read.
        expect([0, 3_600_000]).toContain(Math.abs(again.getTime() - at.getTime()))
        expect(z.encode(codec, again)).toBe(z.encode(codec, at))
      }),
    )
  })

  test('for a list', () => {
    expect(z.decode(listText, 'pigeon;  wood pigeon ;')).toEqual(['pigeon', 'wood pigeon'])
    expect(z.encode(listText, ['a', 'b'])).toBe('a; b')
  })

  test('for a tick', () => {
    expect([z.decode(checkboxText, 'on'), z.decode(checkboxText, ''), z.encode(checkboxText, true)]).toEqual([
      true,
      false,
      'on',
    ])
    expect(checkboxText.parse(undefined)).toBe(false)
  })

  test('nothing typed is absent, never a zero', () => {
    const maybe = blankable(integerText)
    expect([maybe.parse(' '), maybe.parse(undefined), maybe.parse('0')]).toEqual([null, null, 0])
    expect([z.encode(maybe, null), z.encode(maybe, 7)]).toEqual(['', '7'])
    expect([optionalText(5).parse('  '), optionalText(5).parse(' ab ')]).toEqual([null, 'ab'])
    expect(optionalText(5).safeParse('abcdef').success).toBe(false)
  })
})
