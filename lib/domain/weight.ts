/**
 * Whether a weight is unlikely, so that somebody is asked; nothing is refused for it.
 * Promise: compares with the weight before, where that is not long ago, and with what the species weighs. The bounds
 * are wide on purpose: common practice, no source. Grams, whole days.
 */
import type { Age } from './species.ts'

const RECENT_DAYS = 14
/** Growing young may gain fast; nobody loses or gains so much otherwise. */
const LOSS_MAX = 0.3
const GAIN_MAX = 0.4
const GAIN_OF_YOUNG_MAX = 1.5
const OF_LIGHTEST_ADULT_MIN = 0.45
const OF_HEAVIEST_MAX = 1.5

export type Unlikely =
  | { readonly rule: 'jump'; readonly share: number; readonly before: number; readonly days: number }
  | { readonly rule: 'too light'; readonly usual: number }
  | { readonly rule: 'too heavy'; readonly usual: number }

export type Weighed = { readonly at: Date; readonly grams: number }

const MS_PER_DAY = 86_400_000

/** What is unlikely about a weight; undefined where nothing is. */
export function unlikelyWeight(
  weighed: Weighed,
  before: Weighed | undefined,
  species: { readonly lowG: number | null; readonly highG: number | null; readonly age: Age },
): Unlikely | undefined {
  const { grams } = weighed
  if (species.highG !== null && grams > species.highG * OF_HEAVIEST_MAX) {
    return { rule: 'too heavy', usual: species.highG }
  }
  if (species.age === 'adult' && species.lowG !== null && grams < species.lowG * OF_LIGHTEST_ADULT_MIN) {
    return { rule: 'too light', usual: species.lowG }
  }
  if (before === undefined) return undefined
  const days = Math.round((weighed.at.getTime() - before.at.getTime()) / MS_PER_DAY)
  if (days > RECENT_DAYS) return undefined
  const share = grams / before.grams - 1
  const gainMax = species.age === 'adult' ? GAIN_MAX : GAIN_OF_YOUNG_MAX
  if (share >= -LOSS_MAX && share <= gainMax) return undefined
  return { rule: 'jump', share, before: before.grams, days }
}
