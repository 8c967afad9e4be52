/**
 * What is owed, in words: by when, what, and the one thing to do about it.
 * Promise: a phone number stands with what has to be rung about; a time that comes twice in a night says which of the
 * two it is. Nothing here welcomes an end of a stay.
 */
import { dayOfInstant } from '#lib/domain/day.ts'
import type { DueAbout, DueItem } from '#lib/domain/due.ts'
import type { RoleName } from '#lib/domain/person.ts'
import { capital } from './capital.ts'
import { stageWords } from './care.ts'
import { gramsWords } from './casualty-happened.ts'
import { clockTime, dayAndClock, nearDate, shortDate, weekdayDate } from './dates.ts'
import { callLine } from './desk.ts'
import { managerWords } from './due-manager.ts'
import { stoppedSentence, stoppedTodo } from './stopped-road.ts'

export const DUE = {
  title: 'Due',
  when: 'When',
  what: 'What',
  whose: 'Whose',
  todo: 'Do',
  basis: 'By the hour at which it is owed; within the next twelve hours.',
  nothing: 'Nothing is due from you now',
  nothingComing: 'What you promise, what is asked of you and what grows old stands here by its hour.',
  nothingOf: 'Nothing due here',
  nothingOfComing: 'It stands here as soon as something is.',
  rangBack: 'Rang back',
} as const

const ROLE_HEADS: Readonly<Record<RoleName, string>> = {
  coordinator: 'On the line',
  carer: 'At your centres',
  vet: 'At your practice',
  manager: 'As manager',
  administrator: 'Setup',
}
const ROLE_NOTES: Readonly<Record<RoleName, string>> = {
  coordinator:
    'Calls, call-backs, asks, animals on the road, drivers who are late or lead into a movement stop, holds that run out, two versions of one animal.',
  carer:
    'Checks, young that are alone, counts older than 24 h, animals expected or booked to leave, stays longer than 19 in 20, two versions of one animal.',
  vet: 'What the desk asks of you.',
  manager: 'Closures that end within 3 days, rules not reviewed for a year, tight spells.',
  administrator: 'What placing still lacks.',
}

export function dueRoleHead(role: RoleName): string {
  return ROLE_HEADS[role]
}

export function dueRoleNote(role: RoleName): string {
  return ROLE_NOTES[role]
}

/** "5 later". */
export function laterHead(count: number): string {
  return `${count} later`
}

/** The answer of the page: "4 things are due from you, the first since 23:41". */
export function dueSentence(items: readonly DueItem[], now: Date, zone: string): string {
  const [first] = items
  if (first === undefined) return DUE.nothing
  const count = items.length === 1 ? '1 thing is due from you' : `${items.length} things are due from you`
  return `${count}, ${items.length === 1 ? '' : 'the first '}${byWords(first, now, zone)}`
}

function byWords(item: DueItem, now: Date, zone: string): string {
  if (item.isDay)
    return `on ${nearDate(dayOfInstant(item.at, zone), dayOfInstant(now, zone))}`.replace(
      /^on (to|yes)/,
      '$1',
    )
  const when = nearTime(item.at, now, zone)
  return item.at.getTime() <= now.getTime() ? `since ${when}` : `by ${when}`
}

/** "00:30" today, else "Sat 28 Nov, 23:40". */
export function nearTime(at: Date, now: Date, zone: string): string {
  return dayOfInstant(at, zone) === dayOfInstant(now, zone) ? clockTime(at, zone) : dayAndClock(at, zone)
}

const MINUTE = 60_000
const HOUR_MINUTES = 60
const DAY_MINUTES = 24 * HOUR_MINUTES

/** How late something is, or how long it has still: "40 min ago", "in 3 h". */
export function agoWords(at: Date, now: Date): string {
  const minutes = Math.round((at.getTime() - now.getTime()) / MINUTE)
  const size = Math.abs(minutes)
  if (size === 0) return 'now'
  const span =
    size < 90
      ? `${size} min`
      : size < 36 * HOUR_MINUTES
        ? `${Math.round(size / HOUR_MINUTES)} h`
        : `${Math.round(size / DAY_MINUTES)} days`
  return minutes < 0 ? `${span} ago` : `in ${span}`
}

/** The cell "when": its hour, and how far off that is. */
export function whenWords(
  item: DueItem,
  now: Date,
  zone: string,
): { readonly at: string; readonly off: string } {
  if (item.isDay) {
    const day = dayOfInstant(item.at, zone)
    const today = dayOfInstant(now, zone)
    const late = today - day
    return {
      at: weekdayDate(day),
      off: late > 0 ? `${late === 1 ? '1 day' : `${late} days`} late` : nearDate(day, today),
    }
  }
  return { at: dayAndClock(item.at, zone), off: agoWords(item.at, now) }
}

/** Three ducks are "Rush 12, Rush 13 and Rush 14"; a batch of more says how many. */
export function animalsWords(references: readonly string[], species: string): string {
  const [first = '', ...others] = references
  if (others.length === 0) return `${first}, ${species}`
  if (others.length <= 3) return `${references.slice(0, -1).join(', ')} and ${references.at(-1)}, ${species}`
  return `${first} to ${references.at(-1)}, ${references.length} animals, ${species}`
}

export type DueSaid = { readonly what: string; readonly more: string; readonly todo: string }

/** What is owed, what else matters now, and the word on its button. */
export function dueWords({ about }: DueItem, zone: string): DueSaid {
  switch (about.kind) {
    case 'call':
      return {
        what: callLine(about),
        more: about.isParked ? 'Call put aside' : 'Call open',
        todo: 'Open the call',
      }
    case 'call-back':
      return { what: about.what, more: `Ring back: ${callLine(about)}`, todo: DUE.rangBack }
    case 'ask':
      return askWords(about)
    case 'on-the-road':
      return roadWords(about, zone)
    case 'leg':
      return legWords(about)
    case 'stopped-drive':
      return { what: stoppedSentence(about), more: stoppedTodo(about), todo: 'Open the journey' }
    case 'transfer':
      return {
        what: `Nobody drives ${animalsWords(about.references, about.species)} yet`,
        more: `Agreed from ${about.from} to ${about.to}`,
        todo: 'Plan the drive',
      }
    case 'hold':
      return {
        what: `Place kept for ${animalsWords(about.references, about.species)}`,
        more: `${about.centre}; the hold runs out then`,
        todo: 'Open the animal',
      }
    case 'line':
      return lineStep(about)
    default:
      return otherWords(about, zone)
  }
}

type About<Kind extends DueAbout['kind']> = Extract<DueAbout, { kind: Kind }>

function askWords({ to, phone, isSilent, reference, species }: About<'ask'>): DueSaid {
  const whom = reference === null ? '' : ` about ${reference}, ${species ?? ''}`
  return isSilent
    ? { what: `${to} did not answer${whom}`, more: `Ring ${phone}, or ask the next`, todo: 'Open it' }
    : { what: `${to} is asked${whom}`, more: `No answer yet; ring ${phone}`, todo: 'Open it' }
}

function roadWords(about: About<'on-the-road'>, zone: string): DueSaid {
  const { references, species, by, phone, centre, since, expiresAt } = about
  const who = by === null ? 'The finder has' : `${by} drives`
  const until = expiresAt === null ? '' : `; the hold runs out ${dayAndClock(expiresAt, zone)}`
  const number = phone === null ? '' : `, ${phone}`
  return {
    what: `${who} ${animalsWords(references, species)}`,
    more: `${centre === null ? 'No place is kept' : `On the way to ${centre}`}, since ${dayAndClock(since, zone)}${number}${until}`,
    todo: 'Open the animal',
  }
}

function legWords({ references, species, trouble, by, phone, from, to, reason }: About<'leg'>): DueSaid {
  const who = by ?? 'The finder'
  const number = phone === null ? '' : `, ${phone}`
  const why = reason === null ? '' : `: ${reason}`
  return {
    what: `${who} ${trouble === 'late' ? 'is late' : "can't drive"} with ${animalsWords(references, species)}`,
    more: `${from} to ${to}${why}${number}`,
    todo: 'Open the journey',
  }
}

function lineStep({ step, holder }: About<'line'>): DueSaid {
  switch (step) {
    case 'hand-over':
      return { what: 'Hand over the line', more: 'You hold it until somebody accepts', todo: 'Hand over' }
    case 'accept':
      return {
        what: 'The line is offered to you',
        more: `${holder ?? ''} holds it until you accept`,
        todo: 'Read and accept',
      }
    case 'take-up':
      return {
        what: 'Nobody holds the line',
        more: 'Calls and call-backs belong to nobody',
        todo: 'Take the line',
      }
  }
}

type Other = Exclude<
  DueAbout,
  {
    kind:
      | 'call'
      | 'call-back'
      | 'ask'
      | 'on-the-road'
      | 'leg'
      | 'stopped-drive'
      | 'transfer'
      | 'hold'
      | 'line'
  }
>

function otherWords(about: Other, zone: string): DueSaid {
  switch (about.kind) {
    case 'check':
      return {
        what: `${capital(about.what)}: ${animalsWords(about.references, about.species)}`,
        more: about.centre,
        todo: 'Record the check',
      }
    case 'count':
      return {
        what: `Count ${about.centre}`,
        more:
          about.countedAt === null ? 'Never counted' : `Last counted ${dayAndClock(about.countedAt, zone)}`,
        todo: 'Begin the round',
      }
    case 'expected':
      return {
        what: `${animalsWords(about.references, about.species)} expected`,
        more: about.centre,
        todo: 'Record the arrival',
      }
    case 'two-versions':
      return {
        what: `Two versions of ${animalsWords(about.references, about.species)}`,
        more: `${about.centre}; tapped on the round after somebody else had recorded otherwise`,
        todo: 'Say which is right',
      }
    case 'departure':
      return {
        what: `${animalsWords(about.references, about.species)} booked to leave`,
        more: `${about.centre}; say what happened, or book another time`,
        todo: 'Open the animal',
      }
    case 'still-there':
      return {
        what: `Still there? ${animalsWords(about.references, about.species)}`,
        more: `${about.centre}; ${stageWords(about.stage)} since ${shortDate(dayOfInstant(about.since, zone))}, longer than 19 in 20 such stays`,
        todo: 'Look and say',
      }
    case 'licence':
      return {
        what: `A licence clock runs out: ${animalsWords(about.references, about.species)}`,
        more: `${about.where}; ${about.meaning}`,
        todo: 'Look and say',
      }
    case 'overwinter':
      return {
        what: `Overwinter? ${animalsWords(about.references, about.species)}`,
        more: `${about.centre}; ${gramsWords(about.grams)}, it needs ${gramsWords(about.wanted)} before winter`,
        todo: 'Look and say',
      }
    case 'companion':
      return {
        what: `Find a companion: ${animalsWords(about.references, about.species)}`,
        more: `${about.centre}; young and alone since ${dayAndClock(about.since, zone)}, looked for within 24 to 48 h`,
        todo: 'See who could',
      }
    case 'vet-ask':
      return {
        what: `${about.practice} is asked${about.reference === null ? '' : ` about ${about.reference}, ${about.species ?? ''}`}`,
        more: about.what,
        todo: 'Read the case',
      }
    default:
      return managerWords(about, zone)
  }
}
