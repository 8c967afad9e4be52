import { expect, it } from 'vitest'
import { planPolicyOf } from '#lib/plan/policy.ts'
import { BALANCED_POLICY } from '#tests/support/placement.ts'

it('is the stored policy, "now" kept till morning at the price of "today"', () => {
  const stored = {
    preset: 'balanced',
    kappa: 0.4,
    omega: 4,
    transfer_place_days: 2,
    km_per_place_day: 40,
    refusal_place_days: 20,
    redirect_place_days: 5,
    keep_advice_place_days: 0.25,
    keep_tomorrow_place_days: 0.5,
    keep_today_place_days: 3,
    tight_chance: 0.2,
    hold_minutes: 240,
    ask_lapse_minutes: 60,
    finder_days: 90,
    version: 1,
  } as const
  expect(planPolicyOf(stored)).toEqual(BALANCED_POLICY)
})
