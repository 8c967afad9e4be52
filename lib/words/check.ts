/**
 * What checks find and operations leave, in words; what a check that was not passed does to promises.
 * Promise: a promise that gave way is named with its animal, place and day; no sentence welcomes an end.
 */
import type { Found } from '#lib/domain/check-result.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import type { Span } from '#lib/domain/precision.ts'
import type { ImplantKind, ImplantState, Side } from '#lib/domain/surgery.ts'
import { capital } from './capital.ts'
import { checkName } from './care.ts'
import { dayAndClock, weekdayDate, whenWords } from './dates.ts'

export const CHECK_FORM = {
  found: 'What was found',
  passed: 'Passed?',
  signedBy: 'Which vet',
  signedByHint: 'Needed where a vet signs that something stays in the animal. Only a vet decides that.',
  moreDays: 'If not passed: how much longer',
  moreDaysHint:
    'What comes after moves by so much: later stages, their checks, places kept. Empty: nothing moves, it is looked at again.',
  days: 'days',
} as const

const FOUND_WORDS: Readonly<Partial<Record<Found, string>>> = {
  united: 'Bone united',
  'partly united': 'Bone partly united',
  'not united': 'Bone not united',
  'as it should be': 'Something else looked for: as it should be',
  'not as it should be': 'Something else looked for: not as it should be',
  'signed to stay': 'Stays in: a vet has signed',
  'none in place': 'None is in place',
  'not signed': 'Not signed yet',
}

/** The finding, as a choice and in the record. */
export function foundWords(found: Found): string {
  return FOUND_WORDS[found] ?? capital(found)
}

/** "Bone not united: not passed". */
export function foundChoiceWords(found: Found, passed: boolean): string {
  return `${foundWords(found)}: ${passed ? 'passed' : 'not passed'}`
}

type Longer = {
  readonly slug: string
  readonly found: Found | null
  readonly moreDays: number
  readonly result: string
}

/** Why a plan has a new version: "Radiograph: bone not united, 21 days longer. Callus soft". */
export function longerBecause({ slug, found, moreDays, result }: Longer): string {
  const what = found === null ? 'not passed' : foundWords(found).toLowerCase()
  const head = `${checkName(slug)}: ${what}, ${daysLonger(moreDays)}`
  return result === '' ? head : `${head}. ${result}`
}

export function daysLonger(days: number): string {
  return days === 1 ? '1 day longer' : `${days} days longer`
}

export function operatedBecause(day: DayNumber): string {
  return `Counted from the operation on ${weekdayDate(day)}`
}

export type Gone = {
  readonly reference: string
  readonly isItself: boolean
  readonly enclosure: string
  readonly centre: string
  readonly how: 'broken' | 'moved'
  readonly wasAt: Date
  readonly nowAt: Date | null
}

/** "Rush 12 was to have Long flight 2, Osterskeld, from Thu 3 Dec, 09:00: no longer kept". */
export function displacedWords(
  { reference, isItself, enclosure, centre, how, wasAt, nowAt }: Gone,
  zone: string,
): string {
  const who = isItself ? 'It' : reference
  const head = `${who} was to have ${enclosure}, ${centre}, from ${dayAndClock(wasAt, zone)}`
  return how === 'broken' || nowAt === null
    ? `${head}: no longer kept`
    : `${head}: kept from ${dayAndClock(nowAt, zone)}`
}

export const DISPLACED = {
  head: 'It stays longer: promises that gave way',
  next: 'Each animal without a place needs another one: its card offers what is free.',
} as const

const SIDE: Readonly<Record<Side, string>> = {
  left: 'Left',
  right: 'Right',
  both: 'Both sides',
  'no side': 'No side',
}
const IMPLANT: Readonly<Record<ImplantKind, string>> = {
  pin: 'Pin',
  'external fixator': 'External fixator',
  wire: 'Wire',
  plate: 'Plate',
  suture: 'Suture that stays',
  other: 'Something else',
}

export function sideWords(side: Side): string {
  return SIDE[side]
}

export function implantName(kind: ImplantKind): string {
  return IMPLANT[kind]
}

/** "Pin in place", "External fixator out", "Pin stays in, signed by Dr Thessaly". */
export function implantWords(implant: {
  readonly kind: ImplantKind
  readonly state: ImplantState
  readonly signedBy: string | null
}): string {
  const name = IMPLANT[implant.kind]
  if (implant.state === 'signed to stay') return `${name} stays in, signed by ${implant.signedBy ?? 'a vet'}`
  return `${name} ${implant.state}`
}

/** "Operated Mon 9 Nov, 10:00: left, ulna pinned". */
export function operatedWords(
  surgery: { readonly at: Date; readonly within: Span | null; readonly side: Side; readonly what: string },
  zone: string,
): string {
  const side = surgery.side === 'no side' ? '' : `${SIDE[surgery.side].toLowerCase()}, `
  return `${capital(whenWords(surgery.at, surgery.within, zone))}: ${side}${surgery.what}`
}

export const SURGERY = {
  term: 'Operated',
  none: 'no operation recorded',
  record: 'Record an operation',
  what: 'What was done',
  whatHint: 'Such as: ulna pinned. A vet operates; here it is only written down.',
  side: 'Side',
  implants: 'Left in the animal',
  takeBack: 'Take this operation back',
} as const
