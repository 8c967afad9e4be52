import { describe, expect, it } from 'vitest'
import {
  arrivedInput,
  checkInput,
  closingInput,
  holdInput,
  movedInput,
  revisionInput,
  siteStateInput,
  stageInput,
} from '#lib/domain/record.ts'

const NOW = new Date('2026-06-10T12:00:00Z')
const MOMENT = { zone: 'Europe/London', now: NOW }

describe('a time', () => {
  it('left out is now, as text is the wall clock of the network, as a date is itself', () => {
    const at = (value: unknown) => stageInput(MOMENT).parse({ stageNo: 1, at: value }).at
    expect(at(undefined)).toEqual(NOW)
    expect(at('')).toEqual(NOW)
    expect(at('2026-06-10T12:00')).toEqual(new Date('2026-06-10T11:00:00Z'))
    expect(at(new Date(0))).toEqual(new Date(0))
  })

  it('still to come is no fact, but five minutes of a fast clock are let through', () => {
    const isTaken = (ms: number) =>
      stageInput(MOMENT).safeParse({ stageNo: 1, at: new Date(NOW.getTime() + ms) }).success
    expect([isTaken(299_000), isTaken(301_000)]).toEqual([true, false])
  })
})

describe('a fact', () => {
  it('reads numbers typed or as text, and leaves out what is empty', () => {
    const said = arrivedInput(MOMENT).parse({ centreId: '2', enclosureId: '', placeNo: '3' })
    expect(said).toEqual({ since: NOW, centreId: 2, placeNo: 3 })
  })

  it.each([
    [{ to: 'finder' }, true],
    [{ enclosureId: 1 }, true],
    [{ centreId: 1 }, true],
    [{}, false],
    [{ to: 'practice' }, false],
    [{ to: 'practice', practiceId: 1 }, true],
    [{ to: 'driver', practiceId: 1 }, false],
  ])('names who has it: %o', (said, isTaken) => {
    expect(movedInput(MOMENT).safeParse(said).success).toBe(isTaken)
  })

  it('gives a reason of more than a word for an override', () => {
    const isTaken = (overrideReason: string) =>
      arrivedInput(MOMENT).safeParse({ centreId: 1, overrideReason }).success
    expect([isTaken(''), isTaken('ok'), isTaken('grew up together')]).toEqual([true, false, true])
  })

  it('takes yes and no as buttons send them', () => {
    const passed = (value: unknown) => checkInput(MOMENT).parse({ passed: value }).passed
    expect([passed('yes'), passed('no'), passed('on'), passed(''), passed(true)]).toEqual([
      true,
      false,
      true,
      false,
      true,
    ])
  })
})

describe('a plan', () => {
  it('of a place begins now where nothing is said', () => {
    expect(holdInput(MOMENT).parse({ enclosureId: 4 })).toEqual({
      enclosureId: 4,
      startsAt: NOW,
      needsIsolation: false,
    })
  })

  it('of a closure ends after it begins', () => {
    const isTaken = (endsAt: Date) => closingInput(MOMENT).safeParse({ reason: 'paint', endsAt }).success
    expect([isTaken(NOW), isTaken(new Date(NOW.getTime() + 1))]).toEqual([false, true])
  })

  it('of new expectations has a reason and a stage', () => {
    const isTaken = (input: unknown) => revisionInput.safeParse(input).success
    expect(isTaken({ because: 'x', stages: [{ stageNo: 1, medianDays: '27', p90Days: '' }] })).toBe(true)
    expect(isTaken({ because: ' ', stages: [{ stageNo: 1 }] })).toBe(false)
    expect(isTaken({ because: 'x', stages: [] })).toBe(false)
  })

  it('of a site names one of four states', () => {
    const isTaken = (state: string) => siteStateInput(MOMENT).safeParse({ state, reason: 'x' }).success
    expect(['open', 'closed-to-high-risk', 'isolation-full', 'no-movement'].map(isTaken)).toEqual([
      true,
      true,
      true,
      true,
    ])
    expect(isTaken('shut')).toBe(false)
  })
})
