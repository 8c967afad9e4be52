import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { chanceTone, chanceWord, chanceWords, perCent, perCentSpoken } from '#lib/words/chance.ts'
import { dateSpan, dateWithYear, nearDate, shortDate, weekdayDate, weekdayName } from '#lib/words/dates.ts'
import { changeLine, fanSentence, shortWords, tightWords } from '#lib/words/fan.ts'
import { checkWords, moveWords, ribbonSentence, weakestWords } from '#lib/words/ribbon.ts'

const day = dayOfDate
const NBSP = '\u00a0'

describe('chances', () => {
  it.each([
    [1, 'as good as sure', 'firm'],
    [0.975, 'as good as sure', 'firm'],
    [0.9749, 'very likely', 'firm'],
    [0.9, 'very likely', 'firm'],
    [0.899, 'likely', 'firm'],
    [0.75, 'likely', 'firm'],
    [0.749, 'uncertain', 'uncertain'],
    [0.45, 'uncertain', 'uncertain'],
    [0.449, 'unlikely', 'unlikely'],
    [0.15, 'unlikely', 'unlikely'],
    [0.149, 'hardly any', 'unlikely'],
    [0, 'hardly any', 'unlikely'],
  ] as const)('%d is %s', (chance, word, tone) => {
    expect(chanceWord(chance)).toBe(word)
    expect(chanceTone(chance)).toBe(tone)
  })

  it('come as number and word, and say no more than is known', () => {
    expect(chanceWords(0.27)).toBe(`27${NBSP}%, unlikely`)
    expect(perCent(0.9949)).toBe(`>99${NBSP}%`)
    expect(perCentSpoken(0.9949)).toBe(`over 99${NBSP}%`)
    expect(perCent(0.001)).toBe(`<1${NBSP}%`)
    expect([perCent(1), perCent(0)]).toEqual([`100${NBSP}%`, `0${NBSP}%`])
  })

  it('outside 0 to 1 are refused', () => {
    expect(() => chanceWord(1.1)).toThrow(RangeError)
    expect(() => perCent(Number.NaN)).toThrow(RangeError)
  })
})

describe('dates', () => {
  it('are short, named and spanned', () => {
    expect(weekdayDate(day('2026-11-26'))).toBe('Thu 26 Nov')
    expect(weekdayName(day('2026-11-29'))).toBe('Sunday')
    expect(shortDate(day('2026-09-01'))).toBe('1 Sep')
    expect(dateWithYear(day('2028-02-29'))).toBe('29 February 2028')
    expect(dateSpan(day('2026-12-05'), day('2026-12-22'))).toBe('5 to 22 Dec')
    expect(dateSpan(day('2026-11-30'), day('2027-01-04'))).toBe('30 Nov to 4 Jan')
    expect(dateSpan(day('2026-12-05'), day('2026-12-05'))).toBe('5 Dec')
  })

  it('near today have words', () => {
    const today = day('2026-11-25')
    expect([-1, 0, 1, 2].map(days => nearDate(today + days, today))).toEqual([
      'yesterday',
      'today',
      'tomorrow',
      'Fri 27 Nov',
    ])
  })
})

describe('a ribbon in words', () => {
  const today = day('2026-11-25')
  const stay = [
    { stage: 'critical care', centre: 'Hollin Ness', until: today + 2, chance: 0.996, isPast: false },
    {
      stage: 'restricted activity',
      centre: 'Hollin Ness',
      until: day('2026-12-27'),
      chance: 0.97,
      isPast: false,
    },
    {
      stage: 'unlimited activity',
      centre: 'Long Dune',
      until: day('2027-02-01'),
      chance: 0.79,
      isPast: false,
    },
  ] as const

  it('says stages, places, dates and chances in one sentence', () => {
    expect(ribbonSentence(stay, today)).toBe(
      `Hollin Ness, critical care until about 27 November, over 99${NBSP}%, as good as sure; ` +
        `restricted activity until about 27 December, 97${NBSP}%, very likely; ` +
        `move to Long Dune about 27 December; unlimited activity, 79${NBSP}%, likely; out about 1 February.`,
    )
  })

  it('says what is past without "about"', () => {
    const past = { ...stay[0], until: today - 16, isPast: true }
    expect(ribbonSentence([past], today)).toBe('Hollin Ness, critical care until 9 November; out 9 November.')
  })

  it('names the weakest, the move and the check', () => {
    expect(weakestWords('unlimited activity', 0.79)).toBe(`Weakest: unlimited activity, 79${NBSP}%, likely`)
    expect(moveWords('Long Dune', undefined, 63.7)).toBe('Long Dune, 64 km on')
    expect(checkWords('weigh', today - 1, 'late')).toBe('weigh, overdue since Tue 24 Nov')
    expect(checkWords('radiograph', today + 1, 'due')).toBe('radiograph 26 Nov')
  })
})

describe('the weeks ahead in words', () => {
  const today = day('2026-11-25')

  it('name the worst day and its chance, or that there is room', () => {
    const fan = { noun: 'birds', now: 10.24, places: 14, lastDay: today + 83 }
    expect(fanSentence({ ...fan, worst: { day: day('2027-01-17'), chance: 0.36 } })).toBe(
      `Now about 10.2 birds for 14 places; worst on 17 January, 36${NBSP}% chance of being short.`,
    )
    expect(fanSentence({ ...fan, worst: undefined })).toBe(
      'Now about 10.2 birds for 14 places; room on every day until 16 February.',
    )
    expect(shortWords(0.36)).toBe(`36${NBSP}% chance of being short`)
    expect(tightWords(0.36, day('2027-01-17'))).toEqual({ chance: `36${NBSP}%`, day: '17 Jan' })
    expect(changeLine(day('2027-01-04'), 1, 'north flight shut')).toBe('4 Jan: 1 place, north flight shut')
  })
})
