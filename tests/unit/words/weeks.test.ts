import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import {
  bracketWords,
  classSentence,
  countWords,
  inAllSentence,
  madeWords,
  sizeWords,
  tightestSentence,
  unplannedSentence,
} from '#lib/words/weeks.ts'
import {
  aboutAnimals,
  changeWords,
  closureLine,
  easeAsks,
  easeTitle,
  needsWords,
  nowInWords,
  whyTightWords,
} from '#lib/words/weeks-why.ts'

const NBSP = '\u00a0'
const plain = (words: string) => words.replaceAll(NBSP, ' ')
const day = dayOfDate

describe('the answer', () => {
  const tightest = {
    centre: 'Hollin Ness',
    housing: 'pool-pen',
    day: day('2026-11-29'),
    chance: 0.47,
    tightDays: 3,
    lastDay: day('2027-01-23'),
  } as const

  it('names the tightest class, its worst day, chance and word', () => {
    expect(plain(tightestSentence(tightest))).toBe(
      'Tightest: pool pens at Hollin Ness. On Sun 29 Nov a 47 % chance of being short; room for all is uncertain',
    )
  })

  it('says that no day is tight, and still which is the fullest', () => {
    expect(plain(tightestSentence({ ...tightest, chance: 0.03, tightDays: 0 }))).toBe(
      'No day is tight until 23 January. Fullest: pool pens at Hollin Ness on Sun 29 Nov, 3 % chance of being short; room for all is very likely',
    )
  })

  const worst = { day: day('2027-01-17'), chance: 0.36 }
  const lastDay = day('2027-01-23')
  it.each([
    [
      ['2027-01-16', '2027-01-17', '2027-01-18'],
      '3 tight days, 16 to 18 Jan. The worst is Sun 17 Jan: 36 % chance of being short; room for all is uncertain',
    ],
    [
      ['2027-01-10', '2027-01-17'],
      '2 tight days, between 10 and 17 Jan. The worst is Sun 17 Jan: 36 % chance of being short; room for all is uncertain',
    ],
    [['2027-01-17'], '1 tight day, Sun 17 Jan: 36 % chance of being short; room for all is uncertain'],
  ])('tells a run of tight days from days apart: %j', (dates, said) => {
    expect(plain(classSentence({ tight: dates.map(day), worst, lastDay }))).toBe(said)
  })

  it('says so when there is room', () => {
    expect(classSentence({ tight: [], worst: { ...worst, chance: 0 }, lastDay })).toBe(
      'Room on every day until 23 January',
    )
  })
})

describe('figures and doubt', () => {
  it('have their unit, horizon and reach', () => {
    expect(inAllSentence(77.605, 180, true)).toMatch(
      /^77\.6[01] place-days short, expected within 180 days, over all classes\.$/,
    )
    expect(inAllSentence(1, 180, false)).toContain('of your centres')
    expect(plain(bracketWords(0.2, 0.27))).toContain('between 20 % and 27 %')
    expect(sizeWords(15, 'flight-aviary')).toBe('15 m of flight or longer')
    expect(sizeWords(5, 'hospital-cage')).toBe('size 5 or larger')
  })

  it('say how old the count is', () => {
    expect(countWords('Wed 25 Nov, 07:50', 0)).toBe('Counted Wed 25 Nov, 07:50.')
    expect(countWords('Sun 22 Nov, 18:10', 2)).toContain('2 days ago: ring first')
    expect(countWords(null, 0)).toContain('Never counted')
  })

  it('count those without a plan', () => {
    expect([0, 1, 4].map(unplannedSentence)).toEqual([
      'Every animal in care has a plan',
      '1 animal has no plan yet and is in no forecast',
      '4 animals have no plan yet and are in no forecast',
    ])
  })

  it('have a sign where they change something', () => {
    expect([-12.306, 0.5, -0.001, 0].map(changeWords)).toEqual(['\u221212.31', '+0.50', '0.00', '0.00'])
    expect([0.01, 1.26].map(aboutAnimals)).toEqual(['hardly any', 'about 1.3 animals'])
  })
})

describe('why and what would ease it', () => {
  it('puts a week in short sentences', () => {
    const why = {
      isWorst: true,
      shuts: ['North flight'],
      opens: [],
      stillShut: ['Pond 2'],
      comers: ['kestrel Rush 12'],
      animals: 5.24,
      unknownAnimals: 1.3,
    }
    expect(whyTightWords(why)).toBe(
      'Worst week. North flight shuts. Pond 2 is still shut. Likely there by then: kestrel Rush 12. About 5.2 animals, 1.3 of them still to come.',
    )
  })

  it.each([
    [
      { kind: 'open', enclosure: 'Pond 2', on: day('2026-11-26'), instead: day('2026-12-16') },
      'open Pond 2 again on Thu 26 Nov',
      'done by then instead of Wed 16 Dec',
    ],
    [
      { kind: 'keep open', enclosure: 'Pond 2', shuts: day('2026-12-16') },
      'keep Pond 2 open',
      'the work of Wed 16 Dec another time',
    ],
    [
      { kind: 'one more', housing: 'flight-aviary', size: 15, hasSizes: true },
      'add one flight aviary, 15 m long',
      'an enclosure of that class from today on',
    ],
    [
      {
        kind: 'elsewhere',
        animal: 'Merlin',
        reference: 'Sedge 3',
        housing: 'flight-aviary',
        centre: 'Long Dune',
        km: 38.2,
      },
      'send Sedge 3 to Long Dune',
      'one drive, about 38 km; the merlin lives its time in a flight aviary there',
    ],
  ] as const)('says what to do and what it takes: %j', (ease, title, asks) => {
    expect(easeTitle(ease)).toBe(title)
    expect(easeAsks(ease)).toBe(asks)
  })

  it('says where an animal is and when it needs the place', () => {
    expect(nowInWords('centre', 'Hollin Ness', 'Cage 6')).toBe('Hollin Ness, Cage 6')
    expect(nowInWords('centre', 'Hollin Ness', null)).toBe('Hollin Ness, no proper place')
    expect(nowInWords('finder', null, null)).toBe('with the finder, expected')
    expect(needsWords(day('2026-12-17'), null, false)).toBe('about 17 Dec')
    expect(needsWords(day('2026-11-25'), day('2027-01-19'), true)).toBe('in now, until about 19 Jan')
    expect(closureLine('Pond 2', 'Liner leaks', null)).toBe('Pond 2: liner leaks, no end known')
  })
})

describe('what a forecast was made from', () => {
  const made = (learning: number | null) =>
    madeWords({ at: 'Wed 25 Nov, 20:00', revision: 7, horizonDays: 180, learning })

  it('says whether the records speak in it, and which learning', () => {
    expect(made(null)).toContain(
      "the care plans' own estimates and each centre's usual year; nothing is learned",
    )
    expect(made(4)).toContain('what your records say of stays and arrivals, learned in run 4')
  })
})
