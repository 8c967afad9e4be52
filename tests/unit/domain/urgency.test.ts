import { describe, expect, test } from 'vitest'
import { moreUrgent, URGENCIES, urgencyOf } from '#lib/domain/urgency.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const plain = { isLeaveAlone: false, isNotifiableSuspect: false }
const urgency = (slugs: string[], answers = {}, more = {}) =>
  urgencyOf(
    trade.conditions.filter(one => slugs.includes(one.slug)),
    answers,
    { ...plain, ...more },
  )

// trade.md 4.1, "Urgency classes": common practice, no published scheme.
describe('how urgent it is', () => {
  test.each([
    [['wing-fracture'], {}, 'today'],
    [['wing-fracture', 'flystrike'], {}, 'now'],
    [['parasites'], {}, 'tomorrow'],
    [['parasites'], { cat: 'yes' }, 'today'],
    [['parasites'], { bleeding: 'yes' }, 'now'],
    [['head-trauma'], { conscious: 'no' }, 'now'],
    [['head-trauma'], { conscious: 'yes' }, 'today'],
    [['wing-fracture'], { 'bone-through-skin': 'yes' }, 'now'],
    [['displaced-fledgling'], { injury: 'yes' }, 'today'],
  ] as const)('%j with %j is %s', (slugs, answers, expected) => {
    expect(urgency([...slugs], answers).urgency).toBe(expected)
  })

  test('says every reason that makes it so, and no other', () => {
    expect(urgency(['parasites', 'flystrike'], { bleeding: 'yes', cat: 'yes' }).because).toEqual([
      { kind: 'condition', condition: 'flystrike' },
      { kind: 'answer', question: 'bleeding' },
    ])
  })

  test('is now for a suspected notifiable disease and advice for one to be left', () => {
    expect(urgency(['parasites'], {}, { isNotifiableSuspect: true })).toEqual({
      urgency: 'now',
      because: [{ kind: 'notifiable' }],
    })
    expect(urgency(['displaced-fledgling'], {}, { isLeaveAlone: true }).urgency).toBe('advice')
  })

  test('is today while nothing is said', () => {
    expect(urgency([])).toEqual({ urgency: 'today', because: [{ kind: 'nothing said' }] })
  })

  test('orders from now to advice', () => {
    expect(URGENCIES.flatMap(a => URGENCIES.map(b => moreUrgent(a, b)))).toEqual([
      ...['now', 'now', 'now', 'now'],
      ...['now', 'today', 'today', 'today'],
      ...['now', 'today', 'tomorrow', 'tomorrow'],
      ...['now', 'today', 'tomorrow', 'advice'],
    ])
  })
})
