/**
 * Journeys by road in words: who drives what from where to where, by when, and what is in trouble.
 * Promise: a driver who is late or can't stands with a number to ring.
 */
import type { DriverReadiness } from '#lib/domain/driver.ts'
import type { JourneyAnimalState, LegState, Trouble } from '#lib/domain/road.ts'
import { animalsWords, nearTime } from './due.ts'

export const MOVES = {
  title: 'Moves',
  roadHead: 'On the road',
  roadNote: 'Each animal has one keeper at every instant. A driver who is late alarms the line.',
  noJourneys: 'Nothing is on the road',
  noJourneysComing: 'A drive that is planned from an animal stands here until it has arrived.',
  journey: 'Journey',
  legs: 'Legs',
  where: 'From and to',
  state: 'State',
  open: 'Open the journey',
} as const

export const ROAD = {
  title: 'Journey',
  plan: 'Plan a drive',
  planHead: 'Who, where to',
  planNote: 'A movement stop forbids it with its sentence. The place kept there waits for the last leg.',
  planLegs: 'Legs',
  planLegsNote:
    'One line a driver, in the order of the road. Meet where it is lit. Empty lines count for nothing.',
  animals: 'Animals',
  to: 'Goes to',
  centres: 'Centres',
  practices: 'Practices',
  chooseGoal: 'Choose one',
  carry: 'How to carry it',
  carryHint: 'What the driver should know beside the cautions, which the link shows by itself',
  driver: 'Driver',
  finder: 'The finder',
  noDriver: 'No driver',
  from: 'From',
  goesTo: 'To',
  pickUpAt: 'Picked up at',
  dueAt: 'There by',
  keep: 'Plan it',
  back: 'Back to the moves',
  toAnimal: 'Open the animal',
  done: 'It is planned. Make a link for each driver, or write down what they say on the phone.',
  kept: 'It is written down',
  legsHead: 'The legs',
  legsNote: 'Who says so by link or on the phone has the animals from that minute.',
  what: 'What',
  who: 'Who drives',
  said: 'Said on the phone',
  have: 'Has it',
  delivered: 'Delivered',
  cant: "Can't",
  write: 'Write it down',
  reason: 'Why not',
  reasonHint: 'Optional',
  other: 'Another driver',
  giveOn: 'Give the leg on',
  link: 'Link for the driver',
  linkMade: 'The link: send it now, it is not shown again',
  linkText: 'To send',
  makeLink: 'Make a link',
  linkNote:
    'It opens this leg alone, without an account, until 12 hours after it is due. A new one ends the one before.',
  turn: 'Turn back',
  turnNote: 'The driver reads where to on the link. The place kept where it went is given up.',
  callOff: 'Call the journey off',
  callOffNote: 'Nobody has set off. The place that was kept stays until somebody gives it back.',
  endHead: 'Turning back, calling off',
  noPlace: 'No place is kept there: it will be in the building',
} as const

type Leg = {
  readonly legNo: number
  readonly driver: string | null
  readonly phone: string | null
  readonly fromWords: string
  readonly toWords: string
  readonly state: LegState
  readonly pickUpAt: Date
  readonly dueAt: Date
  readonly hasItAt: Date | null
  readonly endedAt: Date | null
  readonly reason: string | null
  readonly trouble: Trouble | undefined
}
type Animal = { readonly reference: string; readonly species: string; readonly state: JourneyAnimalState }
type Journey = {
  readonly from: string | null
  readonly to: string
  readonly turnedAt: Date | null
  readonly endedAt: Date | null
  readonly animals: readonly Animal[]
  readonly legs: readonly Leg[]
}

/** "Rush 12 and Rush 13, Mallard": those still on it, or once it is over all. */
export function travellersWords({ animals }: Pick<Journey, 'animals'>): string {
  const open = animals.filter(({ state }) => state === 'open')
  const named = open.length === 0 ? animals : open
  const species = [...new Set(named.map(one => one.species))].join(' and ')
  return animalsWords(
    named.map(({ reference }) => reference),
    species,
  )
}

/** The head of a journey: "Rush 12, Kestrel, from Averbrook to Farrowmere". */
export function journeySentence(journey: Journey): string {
  const from = journey.from === null ? '' : ` from ${journey.from}`
  return `${travellersWords(journey)},${from} to ${journey.to}`
}

export function driverWords({ driver }: Pick<Leg, 'driver'>): string {
  return driver ?? ROAD.finder
}

/** "Averbrook to the lay-by at Stonehythe". */
export function legPath({ fromWords, toWords }: Pick<Leg, 'fromWords' | 'toWords'>): string {
  return `${fromWords} to ${toWords}`
}

/** How a leg stands: "has it since 14:05, there by 15:00". */
export function legStateWords(leg: Leg, now: Date, zone: string): string {
  const at = (when: Date) => nearTime(when, now, zone)
  switch (leg.state) {
    case 'planned':
      return `picks it up at ${at(leg.pickUpAt)}, there by ${at(leg.dueAt)}`
    case 'on the road':
      return `has it since ${at(leg.hasItAt ?? leg.pickUpAt)}, there by ${at(leg.dueAt)}`
    case 'delivered':
      return `delivered ${at(leg.endedAt ?? leg.dueAt)}`
    case 'cant':
      return leg.reason === null ? "can't" : `can't: ${leg.reason}`
    case 'called-off':
      return 'called off'
  }
}

const TROUBLE: Readonly<Record<Trouble, string>> = { late: 'is late', cant: "can't drive" }

/** "Perrin Oakshade is late with Rush 12, Kestrel". */
export function troubleSentence(journey: Journey, leg: Pick<Leg, 'driver' | 'trouble'>): string {
  return `${driverWords(leg)} ${TROUBLE[leg.trouble ?? 'late']}: ${travellersWords(journey)}`
}

/** What to do about it: whom to ring, and that the place waits. */
export function troubleKept(
  journey: {
    readonly to: string
    readonly animals: readonly { readonly state: JourneyAnimalState; readonly held: string | null }[]
  },
  leg: Leg,
  now: Date,
  zone: string,
): string {
  const number = leg.phone === null ? '' : `, ${leg.phone}`
  const since =
    leg.state === 'planned'
      ? `pick-up ${nearTime(leg.pickUpAt, now, zone)}`
      : `due ${nearTime(leg.dueAt, now, zone)}`
  const what = leg.trouble === 'cant' ? legStateWords(leg, now, zone) : since
  const isKept = journey.animals.some(({ state, held }) => state === 'open' && held !== null)
  const place = isKept ? ` The place kept at ${journey.to} stays until you decide.` : ''
  return `${legPath(leg)}, ${what}${number}.${place}`
}

const ANIMAL_STATE: Readonly<Record<JourneyAnimalState, string>> = {
  open: 'under way',
  arrived: 'arrived',
  'turned-back': 'turned back',
  elsewhere: 'is somewhere else',
  ended: 'its case ended on the way',
  'called-off': 'called off',
}

export function animalStateWords(state: JourneyAnimalState): string {
  return ANIMAL_STATE[state]
}

/** How an animal of a journey stands, with the place kept for it. */
export function animalFactWords(
  animal: { readonly state: JourneyAnimalState; readonly held: string | null },
  journey: { readonly isToCentre: boolean; readonly to: string },
): string {
  const state = animalStateWords(animal.state)
  if (animal.state !== 'open' || !journey.isToCentre) return state
  return animal.held === null
    ? `${state}. ${ROAD.noPlace}`
    : `${state}; ${animal.held} at ${journey.to} is kept`
}

/** What the form that plans a drive is about. */
export function planSentence(first: {
  readonly keeper: string
  readonly centre: string | null
  readonly heldAt: string | null
}): string {
  const where = first.centre ?? (first.keeper === 'finder' ? 'its finder' : 'where it is now')
  return first.heldAt === null
    ? `Plan a drive from ${where}`
    : `Plan a drive from ${where} to ${first.heldAt}, where a place is kept`
}

/** "Rush 12, Kestrel". */
export function travellerLabel(one: { readonly reference: string; readonly species: string }): string {
  return `${one.reference}, ${one.species}`
}

/** What becomes of a journey: where it is, that it turns back, how it ended. */
export function journeyBasis(journey: Journey): string {
  if (journey.endedAt !== null) {
    return journey.animals.map(one => `${one.reference} ${animalStateWords(one.state)}`).join('; ')
  }
  if (journey.turnedAt !== null) return `It turns back to ${journey.from ?? 'where it came from'}.`
  const driving = journey.legs.find(({ state }) => state === 'on the road')
  if (driving !== undefined) return `${driverWords(driving)} has it.`
  return 'Nobody has picked it up yet.'
}

const READINESS: Readonly<Record<DriverReadiness, string>> = {
  'in hours': 'in hours now',
  'at night': 'drives at night',
  'out of hours': 'not in hours now',
}

/** "Perrin Oakshade, 07700 900401: the north shore; estate car". */
export function driverOption(driver: {
  readonly name: string
  readonly area: string
  readonly vehicle: string
}): string {
  const more = [driver.area, driver.vehicle].filter(words => words !== '').join('; ')
  return more === '' ? driver.name : `${driver.name}: ${more}`
}

export function readinessWords(readiness: DriverReadiness): string {
  return READINESS[readiness]
}

/** "Leg 1". */
export function legWords(legNo: number): string {
  return `Leg ${legNo}`
}

/** When a link was made for a driver and whether it was opened. */
export function linkStandsWords(
  link: { readonly expiresAt: Date; readonly openedAt: Date | null } | null,
  now: Date,
  zone: string,
): string {
  if (link === null) return 'no link yet'
  const until = `opens until ${nearTime(link.expiresAt, now, zone)}`
  return link.openedAt === null
    ? `link not opened yet, ${until}`
    : `link opened ${nearTime(link.openedAt, now, zone)}, ${until}`
}

/** The message to send, to be followed by the link. */
export function legText(journey: Pick<Journey, 'animals'>, leg: Leg, now: Date, zone: string): string {
  const { animals } = journey
  const kinds = [...new Set(animals.map(one => one.species))].join(' and ')
  return `${driverWords(leg)}: ${kinds}, ${legPath(leg)}, pick-up ${nearTime(leg.pickUpAt, now, zone)}, there by ${nearTime(leg.dueAt, now, zone)}. How to carry it, and to say "I have it" and "delivered":`
}
