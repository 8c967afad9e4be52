/**
 * Proposed moves that were set aside, in words: why, by whom, until when.
 * Promise: says what was decided and when it comes back; nothing is lost by setting aside.
 */
import type { AsideReason } from '#lib/domain/move-aside.ts'
import { dayAndClock } from './dates.ts'

export const ASIDE = {
  head: 'Set aside',
  note: 'Not proposed for now. Each comes back by itself on its day, or once the animal is in another place, stage or plan.',
  title: 'Not this one, because',
  submit: 'Set aside',
  reason: 'Why',
  choose: 'Choose',
  words: 'In your own words',
  wordsHint: 'Needed only where none of the reasons fits',
  until: 'Until',
  untilHint: 'Empty means until something about it changes',
  takeUp: 'Propose it again',
  done: 'Set aside; it stands below with your reason',
  takenUp: 'It is proposed again',
} as const

const REASON: Readonly<Record<AsideReason, string>> = {
  'unfit to travel': 'Not fit to travel',
  'settled here': 'Settled here; a move would cost it more',
  'with its company': 'Stays with its company',
  'nobody drives': 'Nobody can drive it',
  'not now there': 'The other centre would rather not now',
  other: 'Another reason',
}

export function asideReasonWords(reason: AsideReason): string {
  return REASON[reason]
}

type Said = {
  readonly reference: string
  readonly species: string
  readonly from: string
  readonly to: string
  readonly at: Date
  readonly by: string | null
  readonly reason: AsideReason
  readonly words: string | null
  readonly untilOn: string | null
}

/** "Rush 12, Kestrel: from Averbrook to Farrowmere". */
export function asideHead({ reference, species, from, to }: Said): string {
  return `${reference}, ${species}: from ${from} to ${to}`
}

/** "Not fit to travel: still thin. Marit Sollwyn, Tue 3 Nov, 14:20; until Fri 6 Nov". */
export function asideWords({ at, by, reason, words, untilOn }: Said, zone: string): string {
  const own = words === null ? '' : words.replace(/\.$/, '')
  const why = reason === 'other' ? own : own === '' ? REASON[reason] : `${REASON[reason]}: ${own}`
  const until =
    untilOn === null
      ? 'until something changes'
      : `until ${dayAndClock(new Date(`${untilOn}T12:00:00Z`), 'UTC').split(',')[0]}`
  return `${why}. ${[by, dayAndClock(at, zone)].filter(Boolean).join(', ')}; ${until}`
}

const LOOK = 'Look at what stands below now.'

export const ASIDE_RULES = {
  'move-aside-day-ahead': {
    say: 'Until when lies ahead, within a year',
    next: 'Give a later day, or leave it empty. Everything typed is kept.',
  },
  'move-aside-already': { say: 'Somebody set this move aside a moment ago', next: LOOK },
  'move-aside-over': { say: 'This move is not set aside any more', next: LOOK },
} as const
