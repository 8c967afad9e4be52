/**
 * What is said on a call: headings and fields of the sheet, what to tell the finder, advice to read aloud, what is
 * said when an animal is kept till morning or sent elsewhere.
 * Promise: plain sentences that can be read out as they stand. Nothing here decides; a vet does where it matters.
 */
import type { CallFacts, Danger, MissingFact } from '#lib/domain/call-facts.ts'
import type { LeaveAdvice } from '#lib/domain/leave-alone.ts'

export const CALL = {
  heading: 'Call',
  first: 'First',
  animal: 'Animal',
  animalHint: 'A few letters of a name, or what it looks like',
  standIn: 'Nobody can name it',
  standInNote: 'Stands in until it is named: strictest handling, alone, the average plan of its group',
  where: 'Where',
  whereHint: 'Road, landmark, place, coordinates or plus code',
  wrong: 'What is wrong',
  wrongHint: "The finder's words; several may hold",
  urgency: 'How urgent',
  count: 'How many',
  brood: 'They belong together',
  age: 'Age',
  since: 'What has happened since',
  sinceHint: 'Fed, given water, moved, treated',
  finder: 'Finder',
  finderHint: 'Kept only as long as the case needs it',
  phone: 'Phone',
  seenOnly: 'Seen, not caught',
  noFinder: 'Nobody is with it',
  notes: 'Notes',
  park: 'Park the call',
  callBack: 'Promise a call back',
  rank: 'Rank again',
  leaveRecorded: "The authority's leave",
  examinedOutside: 'Examined outside by',
  vetAgrees: 'A vet agrees that it is kept till morning',
} as const

const MISSING: Readonly<Record<MissingFact, string>> = {
  animal: 'which animal it is, or what it looks like',
  where: 'where it is, as a place on the map',
  wrong: 'what is wrong with it',
}

/** What a first answer still needs; an empty text when nothing is missing. */
export function missingWords(missing: readonly MissingFact[]): string {
  if (missing.length === 0) return ''
  return `For an answer, ask ${missing.map(one => MISSING[one]).join(', and ')}`
}

/** "2 facts changed, rank again". */
export function changedWords(count: number): string {
  return count === 1 ? '1 fact changed, rank again' : `${count} facts changed, rank again`
}

const AGE: Readonly<Record<CallFacts['age'], string>> = {
  adult: 'Adult',
  young: 'Young',
  unknown: 'Not known',
}

export function ageWords(age: CallFacts['age']): string {
  return AGE[age]
}

const DANGER: Readonly<Record<Danger, string>> = {
  road: 'On a road',
  rail: 'On or by a railway',
  water: 'In water',
  cliff: 'At a cliff',
  'power line': 'At a power line',
  height: 'High up',
  trapped: 'Trapped or entangled',
}

export function dangerWords(danger: Danger): string {
  return DANGER[danger]
}

const RESPONSIBLE: Readonly<Record<Danger, string>> = {
  road: 'the police or the road service',
  rail: 'the railway',
  water: 'the coastguard or the water rescue',
  cliff: 'the coastguard',
  'power line': 'the network operator',
  height: 'the fire service',
  trapped: 'the animal rescue or the fire service',
}

/** Who is called before anybody goes near. */
export function responsibleWords(dangers: readonly Danger[]): string {
  const named = [...new Set(dangers.map(danger => RESPONSIBLE[danger]))]
  return named.length === 0 ? '' : `Nobody goes near it. Call ${named.join(', and ')} first.`
}

/** What to tell a finder who has it or can pick it up, a sentence each. */
export function finderSteps(facts: {
  readonly isBat: boolean
  readonly isLarge: boolean
  readonly isCaught: boolean
}): string[] {
  if (facts.isLarge)
    return ['Stay at a distance. Keep dogs and people away. Somebody who knows the animal will come.']
  const hands = facts.isBat
    ? 'Thick gloves, never bare hands. Cover it with a box and slide card under it.'
    : 'With gloves or a towel, put it into a box with air holes and a towel on the floor.'
  return [
    facts.isCaught ? 'Keep it in a box with air holes and a towel on the floor.' : hands,
    'Close the lid: dark and quiet. No looking in, no photos, no music, no pets near.',
    'Warm, not hot: a bottle of warm water wrapped in a cloth on one side.',
    'No food, no drink, no medicine.',
    'Wash your hands. Has it bitten or scratched anybody?',
  ]
}

const ADVICE: Readonly<Record<LeaveAdvice, readonly string[]>> = {
  fledgling: [
    'This sounds like a fledgling: feathered, out of the nest before it can fly. That is how it should be.',
    'Its parents feed it on the ground. Leave it, or lift it into cover a few steps away.',
    'Keep cats and dogs in for a few hours and watch from a window.',
  ],
  owlet: [
    'Owlets leave the nest before they can fly and climb back up by themselves.',
    'If it sits in the open, lift it onto a branch as high as you can reach. Gloves: it grips.',
    'Its parents come at dusk.',
  ],
  fawn: [
    'A fawn lies still while its mother feeds; she comes back when nobody is near.',
    'Do not touch it. Go away from it and keep dogs on the lead.',
  ],
  leveret: [
    'Leverets wait alone in the grass; their mother comes once or twice a day, at dusk.',
    'Do not touch it. Go away from it and keep dogs on the lead.',
  ],
  'seal pup': [
    'A pup may rest on the beach for hours while its mother is at sea.',
    'Stay well back, keep dogs on the lead and never drive it into the water.',
    'We would like to know in a few hours whether it is still there.',
  ],
  cub: [
    'Cubs play above ground by day and their mother is often near.',
    'Leave it and keep dogs away. Watch from a distance.',
  ],
  young: ['Its mother is often near. Leave it, keep dogs away and watch from a distance.'],
}

/** What to read aloud when the right answer is to leave it; it ends with when to ring again. */
export function leaveAdvice(advice: LeaveAdvice): string[] {
  return [
    ...ADVICE[advice],
    'Ring again if it is hurt, a cat has had it, or nobody has come to it by this time tomorrow.',
  ]
}

/** Advice given because no place could be found: honest about why. */
export function refusalAdvice(): string[] {
  return [
    'We have no place for it today and nobody we know of has one.',
    'Keep it in a dark box with air holes, warm and quiet, without food or drink, and ring a vet near you.',
    'We have written your call down and it counts as one we could not take.',
  ]
}

/** What a finder is told who keeps an animal till the morning. */
export function keepTillMorning(kept: {
  readonly vetName: string
  readonly callBackAt: string
  readonly keptBy: 'finder' | 'practice'
}): string[] {
  const keeper = kept.keptBy === 'finder' ? 'You keep it till morning' : 'The practice keeps it till morning'
  return [
    `${keeper}; ${kept.vetName} has agreed to that.`,
    'Dark, warm and quiet. No food, no drink, no medicine. Do not open the box.',
    `We ring you at ${kept.callBackAt}.`,
    'Ring at once if it bleeds, gasps or lies on its side.',
  ]
}

/** What a finder is told who is sent to a place outside the network. */
export function redirectWords(place: {
  readonly name: string
  readonly phone: string
  readonly takesWords: string
  readonly hoursWords: string
}): string {
  return `${place.name} takes ${place.takesWords} (${place.hoursWords}). Ring ${place.phone} before you drive.`
}

/** What a finder is told of a suspected notifiable disease. */
export function suspectSteps(authority: { readonly name: string; readonly phone: string }): string[] {
  return [
    'Do not touch it and do not bring it. Keep people, dogs and poultry away.',
    'If you have touched it: wash your hands and change your clothes before you go to other birds.',
    `${authority.name} has to know, ${authority.phone}. We report it as well.`,
    'If somebody comes to look at it, they do so outside.',
  ]
}

/** The sentence that is read aloud after a place is confirmed. */
export function confirmedWords(said: {
  readonly reference: string
  readonly centre: string
  readonly by: string | undefined
  readonly door: string
}): string {
  const when = said.by === undefined ? '' : ` by ${said.by}`
  return `Take it to ${said.centre}${when} and say ${said.reference}; ${said.door}.`
}
