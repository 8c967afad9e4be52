import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { appliesIn, clocksOf, type LicenceRule, unauthorisedAt } from '#lib/domain/licence.ts'

// Trade S96 and S97: in England an authorised person may keep a Schedule 4 bird 15 days, a vet 42.
const RULE: LicenceRule = {
  key: 'en-schedule-4-keeping',
  meaning: 'x',
  jurisdiction: 'England',
  clock_days: [15, 42],
  clock_holders: ['authorised person', 'vet'],
  needs_holder: true,
  holders: [{ centreId: 1, from: '2026-01-01', until: '2026-06-30' }],
}

describe('a rule holds', () => {
  it.each([
    ['GB', 'England', true],
    ['GB', 'gb', true],
    ['England and Wales', 'Wales', true],
    ['England and Wales', 'Scotland', false],
    ['Scotland', 'England', false],
    ['EU', 'England', false],
    [null, 'anywhere', true],
  ])('%s in %s: %s', (rule, network, holds) => {
    expect(appliesIn(rule, network)).toBe(holds)
  })
})

describe('clocks', () => {
  it('count from arrival, and run for the kind of holder that has the animal', () => {
    const running = (keeper: 'centre' | 'practice' | null) =>
      clocksOf(RULE, 100, keeper).map(({ on, isRunning }) => [on, isRunning])
    expect(running('centre')).toEqual([
      [115, true],
      [142, false],
    ])
    expect(running('practice')).toEqual([
      [115, false],
      [142, true],
    ])
    expect(running(null).every(([, isRunning]) => isRunning === false)).toBe(true)
  })

  it('that name nobody run for whoever has it', () => {
    const [clock] = clocksOf({ clock_days: [183], clock_holders: [] }, 0, 'centre')
    expect(clock).toEqual({ days: 183, on: 183, holder: 'anyone', isRunning: true })
  })
})

describe('who may hold it', () => {
  const at = (centreId: number, date: string, jurisdiction = 'England') =>
    unauthorisedAt([RULE], { centreId, day: dayOfDate(date), jurisdiction })?.key
  it('is a centre that is authorised on that day, where the rule holds', () => {
    expect(at(1, '2026-06-30')).toBeUndefined()
    expect(at(1, '2026-07-01')).toBe(RULE.key)
    expect(at(2, '2026-06-30')).toBe(RULE.key)
    expect(at(2, '2026-06-30', 'Scotland')).toBeUndefined()
  })
  it('is anybody where the rule asks for no holder', () => {
    const free = { ...RULE, needs_holder: false }
    expect(
      unauthorisedAt([free], { centreId: 2, day: dayOfDate('2026-06-30'), jurisdiction: 'England' }),
    ).toBeUndefined()
  })
})
