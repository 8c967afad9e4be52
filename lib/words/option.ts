/**
 * What is said of an option for a call: its title, the answer at the top, who opens, what to ask first, and what to
 * tell the finder. Promise: every line can be read aloud; times are the network's wall clock, distances rounded km.
 * Nothing here says that a death or an early release eases a day.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type {
  AddedShortage,
  AskFirst,
  LocalTime,
  OpenDoor,
  PlacementOption,
  PlannedMove,
} from '#lib/domain/option.ts'
import { nearDate } from './dates.ts'

export const OPTION_WORDS = {
  heading: 'What can be done now',
  ruledOut: 'Ruled out',
  ruledOutWhy: 'and why',
  total: 'Welfare cost',
  addedShortage: 'Cost to others',
  policyMark: 'Weights in place-days are policy of ours, no source',
  noOptions: 'No centre, practice or place outside can be offered',
} as const

/** What is known of whoever made the call, as far as it changes the words. */
export type CallSituation = {
  readonly today: DayNumber
  readonly isCaught: boolean
  readonly hasFinder: boolean
}

/** "Hollin Ness now, then Long Dune for unlimited activity". */
export function optionTitle(option: PlacementOption, today: DayNumber): string {
  const name = option.to?.name ?? ''
  switch (option.kind) {
    case 'admit':
      return `${name} for the whole stay`
    case 'admit and move':
      return `${name} now, ${thenWords(option.moves)}`
    case 'vet':
      return option.path.length === 0
        ? `Straight to ${name}`
        : `Straight to ${name}, ${thenWords(option.moves)}`
    case 'keep till morning': {
      const until = option.keep === null ? 'tomorrow' : timeWords(option.keep.callBackAt, today)
      return `Keep it until ${until}, then ${name}`
    }
    case 'redirect':
      return `Send it to ${name}, outside the network`
    case 'advice':
      return option.orderRule === 'leave alone' ? 'Leave it where it is' : 'Advice only'
    case 'examine outside':
      return `Examined outside at ${name}`
    case 'report':
      return 'Report it and leave it where it is'
  }
}

function thenWords(moves: readonly PlannedMove[]): string {
  return `then ${moves.map(({ to, stage }) => `${to.name} for ${stage}`).join(', ')}`
}

/** The answer at the top of the page, as one sentence without a full stop. */
export function answerTitle(first: PlacementOption | undefined, today: DayNumber): string {
  if (first === undefined) return OPTION_WORDS.noOptions
  const title = optionTitle(first, today)
  return first.kind === 'advice' || first.kind === 'report' ? title : `Best now: ${title}`
}

/** "08:00", "08:00 tomorrow", "08:00 on Mon 30 Nov". */
export function timeWords({ day, clock }: LocalTime, today: DayNumber): string {
  if (day === today) return clock
  const date = nearDate(day, today)
  return day === today + 1 ? `${clock} ${date}` : `${clock} on ${date}`
}

/** "11 km, 20 min". */
export function travelWords({ km, minutes }: { readonly km: number; readonly minutes: number }): string {
  return `${Math.round(km)} km, ${Math.round(minutes)} min`
}

/** Who opens. */
export function doorWords(door: OpenDoor): string {
  switch (door.kind) {
    case 'open':
      return 'Open now'
    case 'staffed':
      return 'Somebody is there through the night'
    case 'on-call':
      return door.phone === null ? `${door.name} opens` : `${door.name} opens, ${door.phone}`
  }
}

/** "Ask first, 07000 000 100: it lets us fill 4 without asking, 1 is left and this call brings 3". */
export function askFirstWords({ phone, offered, left, wanted }: AskFirst): string {
  const ring = phone === null ? 'Ask first' : `Ask first, ${phone}`
  if (offered === null) return `${ring}: nothing is agreed for this group`
  return `${ring}: it lets us fill ${offered} without asking, ${left} ${left === 1 ? 'is' : 'are'} left and this call brings ${wanted}`
}

/** How old the centre's own count is; from a day on it asks to ring first. */
export function countedWords(countedDaysAgo: number | null): string {
  if (countedDaysAgo === null) return 'Never counted, ring first'
  if (countedDaysAgo <= 0) return 'Counted today'
  if (countedDaysAgo === 1) return 'Counted yesterday, ring first'
  return `Counted ${countedDaysAgo} days ago, ring first`
}

/** What is held for it tonight. */
export function placeTonightWords({ placesTonight, shortTonight }: PlacementOption): string {
  const names = [...new Set(placesTonight.map(place => place.name))].join(', ')
  if (shortTonight === 0) return names === '' ? '' : `Held tonight: ${names}`
  const without = shortTonight === 1 ? '1 animal has' : `${shortTonight} animals have`
  const rest = `${without} no proper place tonight`
  return names === '' ? rest : `Held tonight: ${names}. ${rest}`
}

/** "0.91 place-days" of shortage for everybody, with what lies in no class said apart. */
export function addedShortageWords({ withinHorizon, beyond, withoutHousing }: AddedShortage): string {
  const shown = `${(withinHorizon + beyond).toFixed(2)} place-days`
  return withoutHousing < 0.05 ? shown : `${shown}, and ${withoutHousing.toFixed(2)} without such housing`
}

/** Remarks under an option that the person on the line must see before taking it. */
export function optionRemarks(option: PlacementOption, call: CallSituation): string[] {
  const remarks: string[] = []
  if (option.askFirst !== null) remarks.push(askFirstWords(option.askFirst))
  if (option.to?.kind === 'centre' && option.countedDaysAgo !== 0 && option.path.length > 0) {
    remarks.push(countedWords(option.countedDaysAgo))
  }
  if (option.isUnmetDemand) remarks.push('Kept as unmet demand')
  const needsCarrying = option.travel !== null
  if (needsCarrying && !call.isCaught)
    remarks.push('Nobody has caught it yet: the place waits, somebody has to go')
  else if (needsCarrying && !call.hasFinder) remarks.push('Nobody is with it: somebody has to fetch it')
  return remarks
}

/** What to tell the finder if this option is taken, one sentence a line. */
export function tellFinder(option: PlacementOption, call: CallSituation): string[] {
  if (!call.isCaught && option.travel !== null) return watchWords(option)
  const name = option.to?.name ?? ''
  switch (option.kind) {
    case 'admit':
    case 'admit and move':
      return [bringWords(option), ...ringWords(option)]
    case 'vet':
      return [
        bringWords(option),
        ...phoneFirst(option),
        'A vet sees it there. We find its place from tomorrow on.',
      ]
    case 'keep till morning':
      return keepWords(option, call.today)
    case 'redirect':
      return [`${name} takes such animals, and is not one of our centres.`, ...phoneFirst(option)]
    case 'advice':
      return option.orderRule === 'leave alone' ? LEAVE_ALONE : NO_ROOM
    case 'examine outside':
      return [bringWords(option), ...EXAMINED_OUTSIDE, ...phoneFirst(option)]
    case 'report':
      return REPORTED
  }
}

const LEAVE_ALONE = [
  'Leave it where it is; if it is in danger there, move it a few steps into cover.',
  'Its parents are likely near and come back when nobody is watching.',
  'Keep cats, dogs and people away, and ring us again if it is hurt, cold or in the same place tomorrow.',
]
const NO_ROOM = [
  'We have no place that could take it now.',
  'Leave it in a dark, quiet, closed box with air holes. No food, no drink, no medicine.',
  'Ring us again at once if it gets worse.',
]
const EXAMINED_OUTSIDE = [
  'Leave the box closed and stay outside: it is not brought into the building.',
  'Do not touch it again, and wash your hands.',
]
const REPORTED = [
  'Do not touch it, and keep people and pets away.',
  'We report it to the authority, who decide what happens next.',
]

function bringWords({ to, travel }: PlacementOption): string {
  const name = to?.name ?? ''
  return travel === null
    ? `Bring it to ${name}.`
    : `Bring it to ${name}: ${Math.round(travel.km)} km, about ${Math.max(1, Math.round(travel.minutes))} minutes.`
}

function ringWords({ door }: PlacementOption): string[] {
  if (door === null) return []
  if (door.kind !== 'on-call') return door.kind === 'open' ? [] : ['Somebody is there through the night.']
  const ring = door.phone === null ? '' : ` Ring ${door.phone} when you set off.`
  return [`${door.name} opens the door for you.${ring}`]
}

function phoneFirst({ to }: PlacementOption): string[] {
  return to?.phone ? [`Ring ${to.phone} before you set off.`] : []
}

function watchWords({ to }: PlacementOption): string[] {
  return [
    'Do not chase it. Watch it from a distance and tell us if it moves.',
    `We send somebody who brings it to ${to?.name ?? 'us'}.`,
  ]
}

function keepWords({ keep, to }: PlacementOption, today: DayNumber): string[] {
  if (keep === null) return []
  const until = timeWords(keep.callBackAt, today)
  const who = `${keep.vetName} agreed at ${timeWords(keep.agreedAt, today)}.`
  const then = `We ring you back at ${until}; then it goes to ${to?.name ?? 'a centre'}.`
  if (keep.keptBy === 'practice') return [`The practice keeps it until the morning. ${who}`, then]
  return [
    `Keep it in a closed box with air holes, dark, quiet and warm, until the morning. ${who}`,
    'No food, no drink, no medicine, and no looking.',
    then,
    'Ring us at once if it gets worse.',
  ]
}
