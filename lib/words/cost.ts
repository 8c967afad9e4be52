/**
 * The terms of an option's cost, in place-days.
 * Promise: the figures shown add up to the total shown. Units: place-days, two decimals; refuses nothing.
 */

export const COST_WORDS = {
  total: 'Welfare cost',
  unit: 'place-days',
  caption: 'What this option costs',
} as const

/** "0.28" */
export function placeDays(hundredths: number): string {
  return (hundredths / 100).toFixed(2)
}
