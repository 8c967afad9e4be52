import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import {
  allConditionsWords,
  allGroupsWords,
  brokeOffWords,
  changedSentence,
  leanWords,
  learningWords,
  oddsWords,
  planName,
  recordSentence,
  recordsSentence,
  runWords,
  staysWords,
  timesSpan,
  timesWords,
  waitsWords,
} from '#lib/words/records.ts'

const stretch = { mean: 1.4, low: 1.2, high: 1.7 }

describe('what records say of a stage', () => {
  it('stands with the animals it is from, and with how much it leans on the plan', () => {
    expect(recordSentence({ animals: 37, lean: 0.2, stretch })).toBe(
      'Your records say 1.4 times the plan, from 37 animals; its days lean a fifth on the plan',
    )
    expect(recordSentence({ animals: 1, lean: 0.97, stretch: { mean: 1.02 } })).toBe(
      'Your records say as long as the plan, from 1 animal; its days lean wholly on the plan',
    )
    expect(recordSentence({ animals: 1430, lean: 0.01, stretch })).toContain(
      'its days hardly lean on the plan',
    )
  })

  it('says that nothing of its own is recorded', () => {
    expect(recordSentence({ animals: 0, lean: 1, stretch })).toBe(
      'No stay of its own is recorded; others of its kind say 1.4 times the plan',
    )
  })

  it('has a word for every part', () => {
    const parts = [0, 0.1, 0.2, 0.25, 0.33, 0.5, 0.66, 0.75, 0.9, 1].map(leanWords)
    expect(parts).toEqual([
      'hardly',
      'a tenth',
      'a fifth',
      'a quarter',
      'a third',
      'half',
      'two thirds',
      'three quarters',
      'nine tenths',
      'wholly',
    ])
  })

  it('is finer where one digit would say the same twice', () => {
    expect(timesSpan(stretch)).toBe('1.2 to 1.7')
    expect(timesSpan({ low: 0.97, high: 1.04 })).toBe('0.97 to 1.04')
    expect([timesWords(0.94), timesWords(0.96), timesWords(2)]).toEqual([
      '0.9 times the plan',
      'as long as the plan',
      '2.0 times the plan',
    ])
    expect([oddsWords(1.01), oddsWords(1.3)]).toEqual([
      'about as the plan says',
      '1.3 times the odds that the plan gives',
    ])
  })
})

describe('what changed', () => {
  const on = dayOfDate('2026-10-29')

  it('compares with the learning of about a month ago', () => {
    const before = { mean: 1.2, low: 1, high: 1.5 }
    expect(changedSentence(stretch, before, on)).toBe(
      'On 29 October it was 1.2 times the plan (1.0 to 1.5); now it is 1.4 times the plan (1.2 to 1.7)',
    )
    expect(changedSentence(stretch, stretch, on)).toBe(
      'On 29 October it was the same: 1.4 times the plan (1.2 to 1.7)',
    )
  })

  it('says when there is nothing to compare with', () => {
    expect(changedSentence(stretch, null, on)).toBe('On 29 October nothing was learned of this stage')
    expect(changedSentence(stretch, null, null)).toContain('no learning of about a month ago')
  })
})

it('the list says of how many stages records speak, and which learning it is', () => {
  expect(recordsSentence(43, 245)).toBe('Your records speak of 43 of 245 stages')
  expect(recordsSentence(0, 245)).toContain('all 245 lean on the plans')
  expect(runWords({ id: 4, asOf: dayOfDate('2026-11-28'), animals: 312, modelVersion: 'stages 1' })).toBe(
    'Learned from what was known on the morning of 28 November, of 312 stays. Model stages 1, run 4.',
  )
  expect(staysWords([{ animals: 1 }])).toBe('1 stage, 1 stay')
  expect(staysWords([{ animals: 0 }, { animals: 0 }])).toBe('2 stages')
  expect(planName([{ group: 'any bird', how: 'moderate' }])).toBe('Any bird, moderate')
  expect([waitsWords(0), waitsWords(95)]).toEqual([
    '',
    'Drawn for an animal that waits 95 days for its date.',
  ])
})

describe('while records are learned from', () => {
  const learning = {
    done: 120,
    outOf: 664,
    begunAt: new Date('2026-11-30T14:02Z'),
    toldAt: new Date('2026-11-30T14:07Z'),
  }

  it('says how far it is, or where it broke off', () => {
    expect(learningWords(learning, 'UTC')).toBe('Learning from the records: 120 of 664 steps, since 14:02')
    expect(brokeOffWords(learning, 'UTC')).toBe(
      'Learning stopped on Mon 30 Nov, 14:07, after 120 of 664 steps',
    )
  })

  it('names what is folded by its number', () => {
    expect([allConditionsWords(31), allGroupsWords(1)]).toEqual([
      'All 31 conditions with records',
      'The one group',
    ])
  })
})
