/**
 * Why setup does not change something, in words: animals live there, a promise stands, a plan must stay whole.
 * Promise: names the animals; says what to do first.
 */
import type { Broken } from '#lib/domain/breaking.ts'
import type { Said } from './said.ts'

export type OccupiedChange = 'room' | 'company'

const CANNOT: Readonly<Record<OccupiedChange, string>> = {
  room: 'It stays with its centre',
  company: 'The company stays on its side, predator or prey',
}
const NAMED_MAX = 6

/** "It stays with its centre: Marram 13 and Rush 12 are in; a place is kept for Sedge 40". */
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

/** "This stays switched on: 13 animals are here; places are kept for 2". */
export function staysOnWords({
  inside,
  promised,
  asked,
}: {
  readonly inside: number
  readonly promised: number
  readonly asked: number
}): string {
  const parts = [
    ...(inside === 0 ? [] : [inside === 1 ? '1 animal is here' : `${inside} animals are here`]),
    ...(promised === 0 ? [] : [promised === 1 ? 'a place is kept for 1' : `places are kept for ${promised}`]),
    ...(asked === 0 ? [] : [asked === 1 ? '1 ask awaits its answer' : `${asked} asks await its answer`]),
  ]
  return `This stays switched on: ${parts.join('; ')}`
}

export const ASKED_LINE = 'asked for and not answered: note the answer or take the ask back first'

/** "in Cage 2"; "a place is kept in Cage 4". */
export function inTheWayLine({
  isPromise,
  enclosure,
}: {
  readonly isPromise: boolean
  readonly enclosure: string | null
}): string {
  const where = enclosure === null ? 'here, in no enclosure' : `in ${enclosure}`
  return isPromise ? `a place is kept ${where}` : where
}

/** "This breaks 2 stays and gives up 1 kept place"; said anew when it is not what was confirmed. */
export function breaksWords(broken: readonly Broken[], wasConfirmed: boolean): string {
  const lost = broken.filter(one => one.kind === 'stay').length
  const held = broken.filter(one => one.kind === 'hold').length
  const other = broken.length - lost - held
  const parts = [
    ...(lost === 0 ? [] : [`${lost === 1 ? '1 animal loses' : `${lost} animals lose`} a proper place`]),
    ...(held === 0 ? [] : [`${held === 1 ? '1 kept place is' : `${held} kept places are`} given up`]),
    ...(other === 0 ? [] : [`${other === 1 ? '1 animal is' : `${other} animals are`} concerned`]),
  ]
  const effect = parts.join(', ')
  return wasConfirmed ? `The network has moved since you looked: now ${effect}` : `With this change ${effect}`
}

/** "Marram 13, in Cage 2, Ward, has no proper place from now on". */
export function brokenLine({ kind, reference, enclosure }: Broken): string {
  const where = enclosure === '' ? '' : `, in ${enclosure},`
  switch (kind) {
    case 'stay':
      return `${reference}${where} has no proper place from now on, and is to be moved`
    case 'hold':
      return `The place kept for ${reference} in ${enclosure} is given up`
    case 'ill-housed':
      return `${reference}${where} stays where it is, in housing of another kind`
    case 'not taken':
      return `${reference}${where} stays, and nothing more of its kind is offered here`
    case 'housed otherwise':
      return `${reference}${where} stays where it is, in housing that its group no longer has at its stage`
    case 'kept otherwise':
      return `The place kept for ${reference} in ${enclosure} stays kept, in housing that its group no longer has at its stage`
  }
}

/** The reason of the closure that comes with switching off. */
export const SWITCHED_OFF = 'Switched off'

export const BREAKS = {
  head: 'What it breaks',
  confirm: 'Make the change all the same',
  kept: 'Nothing is changed yet, and everything typed is kept. What was recorded of the past stays as it is.',
} as const

/** Rules of setup that no table can keep alone. */
export const SETUP_RULES: Readonly<Record<string, Said>> = {
  'breaks-current': {
    say: 'This change breaks stays or promises that stand now',
    next: 'Read which, then make it all the same, or change what is typed.',
  },
  occupied: {
    say: 'Animals are in, or a place is kept for one',
    next: 'Move them first, or give the promise up. Everything typed is kept.',
  },
  'stop-begins-in-the-past': {
    say: 'A stop begins now or later',
    next: 'Leave the beginning empty for now. What was recorded before stays as it is.',
  },
  'stop-over-already': {
    say: 'This state is over already',
    next: 'Nothing more is to be done.',
  },
  'import-checked': {
    say: 'The table was checked',
    next: 'Nothing is taken in yet. Read what it says, then take the good rows in.',
  },
  'csv-unreadable': {
    say: 'From here on the table cannot be read: a quotation mark may be missing',
    next: 'Look at this line and the one before it.',
  },
  'csv-head-missing': { say: 'No column has this head', next: 'Name it in the first line.' },
  'csv-twice': { say: 'This place stands in the table already', next: 'Leave one of the two out.' },
  'group-has-species': {
    say: 'Species that are switched on are of this group',
    next: 'Give them another group or switch them off first.',
  },
  'group-switched-off': {
    say: 'This group is switched off',
    next: 'Choose another group, or switch this one on again first.',
  },
  'season-there-already': {
    say: 'This species has a season of this kind already',
    next: 'Change that one; one that is switched off can be switched on again.',
  },
  'key-there-already': {
    say: 'This key is taken already',
    next: 'Open the one that has it and change it, or choose another key.',
  },
  'not-a-key': {
    say: 'Small letters, digits and single hyphens, such as wood-pigeons',
    next: 'Change it. Everything typed is kept.',
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
