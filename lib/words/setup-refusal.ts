/**
 * Why setup does not change something, in words: animals live there, a promise stands, a plan must stay whole.
 * Promise: names the animals; says what to do first.
 */
import type { Said } from './said.ts'

export type OccupiedChange = 'switch off' | 'housing' | 'stocking' | 'room'

const CANNOT: Readonly<Record<OccupiedChange, string>> = {
  'switch off': 'This stays switched on',
  housing: 'The housing stays as it is',
  stocking: 'With this stocking somebody would lose a place',
  room: 'The room stays as it is',
}
const NAMED_MAX = 6

/** "This stays switched on: Marram 13 and Rush 12 are in; a place is kept for Sedge 40". */
export function occupiedWords(
  change: OccupiedChange,
  { inside, promised }: { readonly inside: readonly string[]; readonly promised: readonly string[] },
): string {
  const parts = [
    ...(inside.length === 0 ? [] : [`${listed(inside)} ${inside.length === 1 ? 'is' : 'are'} in`]),
    ...(promised.length === 0 ? [] : [`a place is kept for ${listed(promised)}`]),
  ]
  return `${CANNOT[change]}: ${parts.join('; ')}`
}

/** Rules of setup that no table can keep alone. */
export const SETUP_RULES: Readonly<Record<string, Said>> = {
  occupied: {
    say: 'Animals are in, or a place is kept for one',
    next: 'Move them first, or give the promise up. Everything typed is kept.',
  },
  'last-administrator': {
    say: 'Nobody would be left who can set people up',
    next: 'Make somebody else administrator first.',
  },
  'arrivals-there-already': {
    say: 'There is a line for this centre and group already',
    next: 'Open that line and change it.',
  },
  'stage-there-already': {
    say: 'The plan has this stage already',
    next: 'Choose another stage, or open that one and change it.',
  },
  'stage-has-gates': {
    say: 'Gates and checks of the plan belong to this stage',
    next: 'Take them out first, or give them another stage.',
  },
  'gate-without-stage': {
    say: 'The plan has no such stage',
    next: 'Choose a stage that the plan has, or add it first.',
  },
  'shares-do-not-sum': {
    say: 'The shares add up to something other than 100 %',
    next: 'Change one of them. Everything typed is kept.',
  },
  'p90-not-above-median': {
    say: 'Nine of ten take longer than the usual time',
    next: 'Change one of the two.',
  },
  'not-a-day-of-the-year': {
    say: 'A day of the year is given as month and day, such as 03-20',
    next: 'Change it. Everything typed is kept.',
  },
  'stages-out-of-order': {
    say: 'The stages are not in the order of care',
    next: 'Change the stage of one of them.',
  },
  stocking_company_once: { say: 'This company is named twice', next: 'Leave one of the two empty.' },
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, NAMED_MAX)
  const more = names.length - shown.length
  if (more > 0) return `${shown.join(', ')} and ${more} more`
  const last = shown.at(-1) ?? ''
  return shown.length < 2 ? last : `${shown.slice(0, -1).join(', ')} and ${last}`
}
