import { describe, expect, test } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import {
  alikeSentence,
  beatsSentence,
  betterSentence,
  cancelledWords,
  doubtTooShortSentence,
  heldHead,
  heldSentence,
  heldShort,
  judgedDaysWords,
  judgingWords,
  madeFromWords,
  nearerName,
  nearerWords,
  offWords,
  pairsWords,
  scaleSentence,
  staysWords,
  tenthWords,
  tooShortSentence,
} from '#lib/words/judged.ts'

const plain = (text: string) => text.replaceAll('\u00a0', ' ')
const BEGUN = new Date('2026-11-30T14:02Z')

test('one sentence with its range', () => {
  expect(plain(heldSentence(28, 0.79, { low: 0.72, high: 0.85 }))).toBe(
    '28 days later, 79 % of what came lay in the middle where 80 % should (19 chances in 20: 72 to 85 %).',
  )
  expect(heldSentence(1, 0.8, null)).toContain('1 day later')
  expect(heldSentence(1, 0.8, null)).toContain('(too few days to say how sure that is)')
  expect(heldHead(1, 0.8, null)).not.toMatch(/\.$/)
  expect([heldShort(0.79, { low: 0.72, high: 1 }), heldShort(0.79, null)].map(plain)).toEqual([
    '79 % (72 to 100 %)',
    '79 %',
  ])
})

test("a guess that would have done better is named, one that can't be told apart too", () => {
  expect(betterSentence(['same as today'])).toBe('Guessing the same as today would have done better.')
  expect(betterSentence([])).toBe('')
  expect(alikeSentence(['same week last year', 'seasonal mean'])).toBe(
    "It can't be told apart from guessing the same as this week last year or the usual of the season.",
  )
  expect(alikeSentence([])).toBe('')
  expect(beatsSentence(['same as today'])).toBe('The forecast was nearer than guessing the same as today.')
  expect(beatsSentence([])).toBe('')
})

test('who was nearer: a better guess before all else, then those not told apart', () => {
  const [today, week] = ['same as today', 'same week last year'] as const
  expect(nearerName([today, week], ['seasonal mean'], [])).toBe(
    'Guessing the same as today and the same as this week last year',
  )
  expect(nearerName([], [today], [week])).toBe('Not told apart from the same as today')
  expect(nearerName([], [], [today])).toBe('The forecast')
  expect(nearerName([], [], [])).toBe('No guess could be made')
})

describe('how much nearer', () => {
  test.each([
    [0.29, { low: 0.13, high: 0.45 }, '29 % nearer (13 to 45 %)'],
    [-0.3, { low: -0.5, high: -0.1 }, '30 % farther (10 to 50 %)'],
    [-0.03, { low: -0.1, high: 0.04 }, '3 % farther (10 % farther to 4 % nearer)'],
    [0.002, { low: -0.1, high: 0.104 }, 'as near (10 % farther to 10 % nearer)'],
    [-1.75, null, '175 % farther'],
  ])('%s', (nearer, range, said) => {
    expect(plain(nearerWords(nearer, range))).toBe(said)
  })
})

test('too little history says what is there and what it takes', () => {
  expect(tooShortSentence(28, 40, 424)).toBe(
    'Records go back 40 days; to judge what is said of 28 days later they must go back 424.',
  )
  expect(doubtTooShortSentence(90, 780, 1350)).toBe(
    'Records go back 780 days; to say how sure the figures of 90 days later are they must go back 1350.',
  )
})

test('how far a judging is, and how it ended', () => {
  expect(judgingWords(12, 39, BEGUN, 'UTC')).toBe('12 of 39 days judged, since 14:02')
  expect(cancelledWords(12, 39, BEGUN, 'UTC')).toBe(
    'Cancelled on Mon 30 Nov, 14:02, after 12 of 39 days; what was judged is kept',
  )
  expect(cancelledWords(0, 39, BEGUN, 'UTC')).toContain('; nothing was judged')
})

test('what it rests on', () => {
  const span = { from: dayOfDate('2025-06-03'), until: dayOfDate('2026-11-02') }
  expect(judgedDaysWords(37, 39, span)).toBe('37 of 39, from 3 June 2025 to 2 November 2026')
  expect(judgedDaysWords(1, 39, { from: span.from, until: span.from })).toBe('1 of 39, 3 June 2025')
  expect(
    pairsWords([
      { horizon: 1, pairs: 546 },
      { horizon: 7, pairs: 540 },
    ]),
  ).toBe('1 day later 546, 7 days later 540')
  expect(madeFromWords({ revision: 9, seed: 1, begunAt: BEGUN }, 'UTC')).toBe(
    'Revision 9 of the records, seed 1, begun Mon 30 Nov, 14:02',
  )
  expect([offWords(0.123), offWords(1.26)]).toEqual(['0.12', '1.3'])
  expect([0, 9].map(tenthWords)).toEqual(['First', 'Last'])
  expect(plain(scaleSentence(28, [0.12, 0.79, 0.09]))).toBe(
    '28 days later: 12 % in the first tenth, 9 % in the last; 10 % would be right',
  )
})

test('single stays: how many, whether their ends spread as they should, and how far off', () => {
  const told = {
    stays: 1140,
    ended: 1011,
    chance: 0.15,
    tenths: { least: 0.08, most: 0.13 },
    scores: [{ days: 7, score: 0.139 }],
  }
  expect(staysWords(told)).toBe(
    '1140 stays in a stage, foretold on their first day, of which 1011 ended since. Their ends spread over what was foretold as they should (an unevenness like theirs comes by chance in 15\u00a0% of such judgings). Off by 0.139 at 7 days, where 0.250 is a coin.',
  )
  expect(staysWords({ ...told, chance: 0.01 })).toContain(
    'did not spread over what was foretold as they should: of ten parts that should hold 10\u00a0% each, the emptiest held 8\u00a0%, the fullest 13\u00a0% (an',
  )
})
