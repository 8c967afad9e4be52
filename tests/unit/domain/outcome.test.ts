import { describe, expect, test } from 'vitest'
import { ALIVE_ANSWERS, isAliveAfter, OUTCOMES, outcomeOf, WHERE_NOW } from '#lib/domain/outcome.ts'

describe('two questions', () => {
  test('give every term of the record exactly once', () => {
    const found = ALIVE_ANSWERS.flatMap(alive => WHERE_NOW[alive].map(where => outcomeOf(alive, where)))
    const terms = found.flatMap(one => (one.kind === 'ended' ? [one.outcome] : []))
    expect([...terms].sort()).toEqual([...OUTCOMES].sort())
  })

  test.each([
    ['alive', 'in the wild', { kind: 'ended', outcome: 'released' }],
    ['alive', 'with its parents', { kind: 'ended', outcome: 'reunited' }],
    ['alive', 'with us', { kind: 'in care' }],
    ['dead', 'dead when it came', { kind: 'ended', outcome: 'dead on arrival' }],
    ['not known', 'nobody knows', { kind: 'ended', outcome: 'unknown' }],
    ['dead', 'in the wild', { kind: 'no such pair' }],
    ['alive', 'died by itself', { kind: 'no such pair' }],
  ] as const)('%s, %s', (alive, where, expected) => {
    expect(outcomeOf(alive, where)).toEqual(expected)
  })

  test('agree with whether it lives', () => {
    for (const alive of ALIVE_ANSWERS) {
      for (const where of WHERE_NOW[alive]) {
        const found = outcomeOf(alive, where)
        if (found.kind !== 'ended') continue
        expect(isAliveAfter(found.outcome)).toBe(alive === 'not known' ? null : alive === 'alive')
      }
    }
  })
})
