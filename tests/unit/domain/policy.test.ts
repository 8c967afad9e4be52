import { describe, expect, test } from 'vitest'
import { FIRST_POLICY, isAsPreset, PRESET_WEIGHTS, PRESETS, policy } from '#lib/domain/policy.ts'

describe('the policy', () => {
  // Weights in place-days as the network starts with them: ours, no source.
  test('begins balanced', () => {
    expect(policy.parse(FIRST_POLICY)).toEqual(FIRST_POLICY)
    expect(FIRST_POLICY).toMatchObject({
      preset: 'balanced',
      transferPlaceDays: 2,
      kmPerPlaceDay: 40,
      refusalPlaceDays: 20,
      redirectPlaceDays: 5,
      keepAdvicePlaceDays: 0.25,
      keepTomorrowPlaceDays: 0.5,
      keepTodayPlaceDays: 3,
      tightChance: 0.2,
    })
  })

  test('weighs tonight more the more a proper place comes first, and later days less', () => {
    const weights = PRESETS.map(preset => PRESET_WEIGHTS[preset])
    expect(weights.map(one => one.omega)).toEqual([1, 4, 6])
    expect(weights.map(one => one.kappa)).toEqual([0.5, 0.4, 0.3])
  })

  test.each([
    [{ preset: 'mine' }],
    [{ transferPlaceDays: -1 }],
    [{ kmPerPlaceDay: 0 }],
    [{ tightChance: 0 }],
    [{ tightChance: 1 }],
    [{ holdMinutes: 0 }],
    [{ finderDays: 1.5 }],
  ])('refuses %j', wrong => {
    expect(policy.safeParse({ ...FIRST_POLICY, ...wrong }).success).toBe(false)
  })

  test('says when the weights are not those of its preset', () => {
    expect(isAsPreset({ preset: 'balanced', kappa: 0.4, omega: 4 })).toBe(true)
    expect(isAsPreset({ preset: 'balanced', kappa: 0.4, omega: 5 })).toBe(false)
    expect(isAsPreset({ preset: 'fewer-moves', kappa: 0.4, omega: 4 })).toBe(false)
  })
})
