/**
 * The page a driver opens from a link: what, from where, to where, how to carry it, and three things to say.
 * Promise: plain words for somebody without an account; no name of a finder and no other case.
 */
import { dayAndClock } from './dates.ts'

export const DRIVE = {
  title: 'A drive',
  route: 'The drive',
  from: 'From',
  to: 'To',
  pickUp: 'Pick up',
  due: 'There by',
  animals: 'Animals',
  afterwards: 'Afterwards',
  carryHead: 'How to carry it',
  sayHead: 'Say how it stands',
  sayNote: 'From "I have it" the animal is in your keeping, until "delivered".',
  have: 'I have it',
  delivered: 'Delivered',
  cant: "I can't",
  cantGoOn: "I can't go on",
  cantHead: 'If you can’t',
  cantNote: 'The line is told at once and finds somebody. Keep the animal until you are rung.',
  cantNoteBefore: 'The line is told at once and finds somebody else.',
  reason: 'Why, and where you are',
  reasonHint: 'Optional',
  ring: 'The line answers at',
  thanks: 'Thank you. There is nothing more to do.',
  over: 'This drive is over, or somebody else drives it now',
  overNext: 'If you have an animal with you, ring the line:',
  unknown: 'This link opens nothing',
  unknownNext: 'Look whether all of it was copied, or ring whoever sent it.',
  meet: 'The next driver meets you there. With "delivered" the animal is in the next keeping.',
} as const

type Leg = {
  readonly fromWords: string
  readonly toWords: string
  readonly hasItAt: Date | null
  readonly state: string
}

/** "Roostwright asks you to drive a kestrel" / "You have it since Thu 26 Nov, 14:05". */
export function driveSentence(
  network: string,
  kinds: string,
  leg: Leg,
  turnsTo: string | null,
  zone: string,
): string {
  if (turnsTo !== null) return `Turn back: bring it to ${turnsTo}`
  if (leg.state === 'on the road' && leg.hasItAt !== null) {
    return `You have it since ${dayAndClock(leg.hasItAt, zone)}: ${kinds}`
  }
  return `${network} asks you to drive: ${kinds}`
}

/** "Delivered Thu 26 Nov, 14:55". */
export function deliveredWords(at: Date, zone: string): string {
  return `Delivered ${dayAndClock(at, zone)}`
}

/** "2 animals: mallard". */
export function kindsWords(species: readonly string[]): string {
  const kinds = [...new Set(species)].join(' and ')
  return species.length === 1 ? kinds : `${species.length} animals, ${kinds}`
}
