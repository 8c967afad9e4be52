/**
 * A chance as number and word: "27 %, unlikely".
 * Promise: both always stand together, so no meaning hangs on colour; above 99 % reads ">99 %", under 1 % "<1 %".
 * Refuses numbers outside 0 to 1 (RangeError). Units: chances from 0 to 1, words in per cent.
 */

export type ChanceWord =
  | 'as good as sure'
  | 'very likely'
  | 'likely'
  | 'uncertain'
  | 'unlikely'
  | 'hardly any'
/** The three ways a chance is drawn: 75 % or more, 45 to 75, below. */
export type ChanceTone = 'firm' | 'uncertain' | 'unlikely'

function checked(chance: number): number {
  if (!(chance >= -1e-9 && chance <= 1 + 1e-9))
    throw new RangeError(`a chance lies between 0 and 1, got ${chance}`)
  return Math.min(1, Math.max(0, chance))
}

/** The word for a chance of something wanted (thresholds 97.5, 90, 75, 45, 15 per cent). */
export function chanceWord(chance: number): ChanceWord {
  const per = checked(chance) * 100
  if (per >= 97.5) return 'as good as sure'
  if (per >= 90) return 'very likely'
  if (per >= 75) return 'likely'
  if (per >= 45) return 'uncertain'
  if (per >= 15) return 'unlikely'
  return 'hardly any'
}

/** How a chance is drawn. */
export function chanceTone(chance: number): ChanceTone {
  const per = checked(chance) * 100
  if (per >= 75) return 'firm'
  return per >= 45 ? 'uncertain' : 'unlikely'
}

/** "27 %", ">99 %", "<1 %"; certain and impossible are said as such. */
export function perCent(chance: number): string {
  const per = checked(chance) * 100
  if (per >= 100) return '100\u00a0%'
  if (per > 99) return '>99\u00a0%'
  if (per === 0) return '0\u00a0%'
  if (per < 1) return '<1\u00a0%'
  return `${Math.round(per)}\u00a0%`
}

/** The same for a sentence: "over 99 %", "under 1 %". */
export function perCentSpoken(chance: number): string {
  return perCent(chance).replace('>', 'over ').replace('<', 'under ')
}

/** "27 %, unlikely". */
export function chanceWords(chance: number): string {
  return `${perCent(chance)}, ${chanceWord(chance)}`
}
