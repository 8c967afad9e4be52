/**
 * The network's policy as placement weighs it.
 * Promise: the weights of the stored policy, unchanged; "now" is kept till morning at the price of "today".
 */
import type { NetworkState } from '#lib/domain/network-state.ts'
import type { PlanPolicy } from './model.ts'

/** The weights, in place-days, of a policy as it is read from the network's state. */
export function planPolicyOf(policy: NetworkState['policy']): PlanPolicy {
  return {
    kappa: policy.kappa,
    omega: policy.omega,
    transferDays: policy.transfer_place_days,
    kmPerPlaceDay: policy.km_per_place_day,
    refusalDays: policy.refusal_place_days,
    redirectDays: policy.redirect_place_days,
    keepDays: {
      advice: policy.keep_advice_place_days,
      tomorrow: policy.keep_tomorrow_place_days,
      today: policy.keep_today_place_days,
      now: policy.keep_today_place_days,
    },
  }
}
