/**
 * What the round prints: cards for cages and a sheet a room, black on white.
 * Promise: what must be known at the door stands before everything else; dates ahead say "about".
 */
import type { CareStage } from '#lib/domain/housing.ts'
import { checkName, stageWords } from './care.ts'
import { handlingWords } from './caution.ts'
import { dayAndClock, shortDate } from './dates.ts'

export const PAPER = {
  cards: 'Cage cards',
  sheet: 'Round sheet',
  cardsLink: 'Print cage cards',
  sheetLink: 'Print round sheets',
  back: 'Back to the round',
  howto: 'Print this page with your browser: two cards a page of A4, to cut at A6.',
  howtoSheet: 'Print this page with your browser: one room a page or more, A4.',
  place: 'Place',
  animal: 'Animal',
  know: 'Must know',
  due: 'Due',
  done: 'Done',
  notes: 'What was found',
  next: 'Next',
  until: 'Stays',
  stage: 'Stage',
  weights: 'Weights and notes',
  alone: 'Alone',
  suspect: 'Disease suspected: gown, gloves, mask; nobody else in',
  nowhere: 'In the building, in no enclosure',
  nobody: 'Nobody is in: there are no cards to print',
  nobodyComing: 'A card comes with each animal.',
  counted: 'Went round at',
  initials: 'Initials',
} as const

type Must = {
  readonly isAlone: boolean
  readonly handling: readonly string[]
  readonly isSuspect: boolean
}

/** What must be known before a hand goes in. */
export function mustWords({ isAlone, handling, isSuspect }: Must): string[] {
  return [
    ...(isSuspect ? [PAPER.suspect] : []),
    ...(isAlone ? [PAPER.alone] : []),
    ...handlingWords(handling),
  ]
}

/** "Radiograph 27 Nov". */
export function nextWords(check: { readonly slug: string; readonly dueOn: number | null }): string {
  return check.dueOn === null ? checkName(check.slug) : `${checkName(check.slug)} ${shortDate(check.dueOn)}`
}

/** "Restricted activity". */
export function paperStage(stage: CareStage | null): string {
  return stage === null ? '' : stageWords(stage)
}

/** "Opens Marram 13". */
export function qrLabel(reference: string): string {
  return `Opens ${reference}`
}

/** "As it stood Sun 29 Nov, 11:04". */
export function asItStood(now: Date, zone: string): string {
  return `As it stood ${dayAndClock(now, zone)}`
}
