/**
 * Why days are tight and what would ease them: closures, who comes, journeys, one enclosure more.
 * Promise: names what can be changed by people: closures, places, journeys. Never a death nor an earlier release.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { type HousingType, isOrderedByFlight } from '#lib/domain/housing.ts'
import { housingWords } from './care.ts'
import { perCent } from './chance.ts'
import { shortDate, weekdayDate } from './dates.ts'

/** Fewer animals than this are written as none. */
export const NEXT_TO_NONE = 0.05

/** "Long flight 1 shut, netting torn by the storm". */
export function shutsWords(enclosures: readonly string[], reason: string): string {
  const [only] = enclosures
  const what = enclosures.length === 1 ? `${only}` : `${enclosures.length} enclosures`
  return `${what} shut: ${lower(reason)}`
}

/** "Long flight 1 open again". */
export function opensWords(enclosures: readonly string[]): string {
  const [only] = enclosures
  return enclosures.length === 1 ? `${only} open again` : `${enclosures.length} enclosures open again`
}

/** "Long flight 1, netting torn by the storm, until about Wed 16 Dec". */
export function closureLine(enclosure: string, reason: string, until: DayNumber | null): string {
  const end = until === null ? 'no end known' : `until about ${weekdayDate(until)}`
  return `${enclosure}: ${lower(reason)}, ${end}`
}

export type WhyTight = {
  readonly isWorst: boolean
  readonly shuts: readonly string[]
  readonly opens: readonly string[]
  /** Shut all through the week. */
  readonly stillShut: readonly string[]
  readonly comers: readonly string[]
  readonly animals: number
  readonly unknownAnimals: number
}

/** What makes a week tight, in short sentences. */
export function whyTightWords(why: WhyTight): string {
  return [
    why.isWorst ? 'Worst week.' : '',
    ...why.shuts.map(name => `${name} shuts.`),
    ...why.opens.map(name => `${name} opens again.`),
    ...why.stillShut.map(name => `${name} is still shut.`),
    why.comers.length > 0 ? `Likely there by then: ${why.comers.join(', ')}.` : '',
    unknownShare(why.animals, why.unknownAnimals),
  ]
    .filter(Boolean)
    .join(' ')
}

/** "About 4.6 animals, 0.3 of them still to come". */
function unknownShare(animals: number, unknown: number): string {
  const all = `About ${one(animals)} animals`
  return unknown < NEXT_TO_NONE
    ? `${all}, all in care already.`
    : `${all}, ${one(unknown)} of them still to come.`
}

/** "in now, out about 19 Jan", "about 11 Jan". */
export function needsWords(from: DayNumber | null, until: DayNumber | null, isHere: boolean): string {
  if (isHere)
    return until === null ? 'in now, to the end of the forecast' : `in now, until about ${shortDate(until)}`
  return from === null ? 'after the forecast' : `about ${shortDate(from)}`
}

/** "Averbrook Wildlife Hospital, ward cage 3", or who keeps it. */
export function nowInWords(
  keeper: 'finder' | 'driver' | 'practice' | 'centre',
  centre: string | null,
  enclosure: string | null,
): string {
  if (keeper === 'finder') return 'with the finder, expected'
  if (keeper === 'driver') return 'on the road'
  if (keeper === 'practice') return 'at a practice'
  if (centre === null) return 'place not known'
  return enclosure === null ? `${centre}, no proper place` : `${centre}, ${enclosure}`
}

export const WHO_WORDS = {
  unknown: 'Arrivals not yet known',
  usualRun: "the season's usual run",
  nobody: 'Nobody in care is likely to need them',
  nobodyComing: 'Whoever will be is shown here as soon as a plan leads to it.',
} as const

/** Whose list it is, and of which day the chance is. */
export function whoNote(day: DayNumber): string {
  return `Whoever may need one within these days. The chance is for the worst day, ${weekdayDate(day)}.`
}

/** What unfolds the rest of a long list. */
export function moreWords(count: number): string {
  return `${count} more, each less likely that day`
}

/** "about 1.3 animals". */
export function aboutAnimals(count: number): string {
  return count < NEXT_TO_NONE ? 'hardly any' : `about ${one(count)} animals`
}

/** "5 % on 7 Dec", not broken across lines. */
export function worstWords(chance: number, day: DayNumber): string {
  return `${perCent(chance)} on ${shortDate(day)}`.replaceAll(' ', '\u00a0')
}

export const EASE_WORDS = {
  leave: 'leave it as it is',
  nothing: 'No day is tight, so nothing needs easing',
  nothingComing: 'What would ease a tight day stands here as soon as there is one.',
} as const

export type Ease =
  | {
      readonly kind: 'open'
      readonly enclosure: string
      readonly on: DayNumber
      readonly instead: DayNumber | null
    }
  | { readonly kind: 'keep open'; readonly enclosure: string; readonly shuts: DayNumber }
  | {
      readonly kind: 'one more'
      readonly housing: HousingType
      readonly size: number
      readonly hasSizes: boolean
    }
  | {
      readonly kind: 'elsewhere'
      readonly animal: string
      readonly reference: string
      readonly housing: HousingType
      readonly centre: string
      readonly km: number
    }

/** What to do, after "If you". */
export function easeTitle(ease: Ease): string {
  switch (ease.kind) {
    case 'open':
      return `open ${ease.enclosure} again on ${weekdayDate(ease.on)}`
    case 'keep open':
      return `keep ${ease.enclosure} open`
    case 'one more': {
      const size = isOrderedByFlight(ease.housing) ? `, ${ease.size} m long` : `, size ${ease.size}`
      return `add one ${housingWords(ease.housing)}${ease.hasSizes ? size : ''}`
    }
    case 'elsewhere':
      return `send ${ease.reference} to ${ease.centre}`
  }
}

/** What it takes. */
export function easeAsks(ease: Ease): string {
  switch (ease.kind) {
    case 'open':
      return ease.instead === null
        ? 'an end to a closure that has none yet'
        : `done by then instead of ${weekdayDate(ease.instead)}`
    case 'keep open':
      return `the work of ${weekdayDate(ease.shuts)} another time`
    case 'one more':
      return 'an enclosure of that class from today on'
    case 'elsewhere':
      return `one drive, about ${Math.round(ease.km)} km; the ${ease.animal.toLowerCase()} lives its time in a ${housingWords(ease.housing)} there`
  }
}

/** "-12.31", "0.00". */
export function changeWords(change: number): string {
  const shown = change.toFixed(2)
  if (Number(shown) === 0) return '0.00'
  return change < 0 ? `\u2212${shown.slice(1)}` : `+${shown}`
}

function one(value: number): string {
  return value.toFixed(1)
}

/** A reason goes on in the middle of a sentence. */
function lower(words: string): string {
  return /^[A-Z][a-z]/.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words
}
