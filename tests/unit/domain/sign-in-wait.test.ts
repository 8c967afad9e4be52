import { describe, expect, it } from 'vitest'
import { afterTry, secondsToWait, WAIT_RULES, type Wait, type WaitKind } from '#lib/domain/sign-in-wait.ts'

const NOON = new Date('2026-06-10T12:00:00Z')
const later = (at: Date, seconds: number) => new Date(at.getTime() + seconds * 1000)

/** The waits after each of so many tries, each begun as soon as it is heard. */
function waits(kind: WaitKind, tries: number): number[] {
  let wait: Wait | undefined
  let now = NOON
  return Array.from({ length: tries }, () => {
    now = later(now, secondsToWait(wait, now))
    wait = afterTry(kind, wait, now)
    return secondsToWait(wait, now)
  })
}

describe('waiting between tries', () => {
  it('costs nothing four times, then doubles up to a quarter of an hour', () => {
    expect(waits('pair', 14)).toEqual([0, 0, 0, 0, 10, 20, 40, 80, 160, 320, 640, 900, 900, 900])
  })

  it('never keeps a person from a new place longer than half a minute, however many guess in her name', () => {
    expect(Math.max(...waits('account', 500))).toBe(30)
  })

  it('leaves about a hundred guesses a day at one account from one address', () => {
    const day = 24 * 60 * 60
    const spent = waits('pair', 200)
    let passed = 0
    const heard = spent.filter(seconds => {
      passed += seconds
      return passed <= day
    })
    expect(heard.length).toBeLessThan(112)
    expect(heard.length).toBeGreaterThan(90)
  })

  it('is forgotten after a while without a try', () => {
    const { forgottenAfterSeconds, free } = WAIT_RULES.pair
    let wait: Wait | undefined
    for (let tries = 0; tries <= free; tries++) wait = afterTry('pair', wait, NOON)
    expect(afterTry('pair', wait, later(NOON, forgottenAfterSeconds)).refused).toBe(free + 2)
    expect(afterTry('pair', wait, later(NOON, forgottenAfterSeconds + 1)).refused).toBe(1)
  })

  it('says whole seconds, and none once they have passed', () => {
    const wait = { refused: 6, lastAt: NOON, freeAt: later(NOON, 9.2) }
    expect(
      [NOON, later(NOON, 9), later(NOON, 9.2), later(NOON, 100)].map(at => secondsToWait(wait, at)),
    ).toEqual([10, 1, 0, 0])
    expect(secondsToWait(undefined, NOON)).toBe(0)
  })
})
