/**
 * A vet's "two more weeks" in words.
 * Promise: says what was said, when and by whom, and how far the dates lean on it; never that an animal must go or stay.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { dateWithYear, shortDate } from './dates.ts'

export const VET_WORD = {
  record: 'A vet says how long yet',
  note: 'Only for this animal, in the stage it is in. It decides nothing: whether it may go on, the vet says then.',
  legend: 'How much longer it needs in this stage',
  longer: 'About how long',
  unit: 'Days or weeks',
  saidBy: 'Which vet',
  saidByHint: 'A name, or the practice.',
  takeBack: 'Take it back',
  outdated: 'Expectations were revised after that, so the dates go by those.',
} as const

const UNIT = { days: 'Days', weeks: 'Weeks' } as const

export function unitChoice(unit: keyof typeof UNIT): string {
  return UNIT[unit]
}

/** From here on a date without its year could be read as this year's. */
const YEAR_SAID_FROM_DAYS = 300

type Word = { readonly inDays: number; readonly saidBy: string }

/** "A vet thinks it needs about 14 more days here, until about 12 Dec (said on 28 Nov by Dr Thessaly)." */
export function vetWordSentence(word: Word, saidOn: DayNumber): string {
  const { inDays, saidBy } = word
  const until = (inDays < YEAR_SAID_FROM_DAYS ? shortDate : dateWithYear)(saidOn + inDays)
  return `A vet thinks it needs about ${moreDays(inDays)} here, until about ${until} (said on ${shortDate(saidOn)} by ${saidBy}).`
}

/** How far the dates go by it. */
export const VET_WORD_LEANS = 'The dates lean three quarters on that.'

/** "A vet says about 14 more days (Dr Thessaly)", in the record. */
export function vetWordSaid({ inDays, saidBy }: Word): string {
  return `A vet says about ${moreDays(inDays)} (${saidBy})`
}

function moreDays(days: number): string {
  return days === 1 ? '1 more day' : `${days} more days`
}
