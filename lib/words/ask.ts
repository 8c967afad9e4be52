/**
 * Asking in words: calls to make, what an ask waits for, how it was answered, what a link's page and a mail say.
 * Promise: says who is to be rung under which number and until when; a text to send names no finder and no other case.
 * Times by the network's clock.
 */
import type { AskShown } from '#lib/domain/escalation.ts'
import type { HousingType } from '#lib/domain/housing.ts'
import { housingWords } from './care.ts'
import { clockTime, dayAndClock } from './dates.ts'

export const ASK = {
  title: 'Asks',
  note: 'A call to make, with its number. Silence moves it on by itself.',
  none: 'Nobody is being asked',
  noneComing: 'An ask stands here from the moment it is put until it is answered.',
  lately: 'Asks answered or ended lately',
  who: 'Whom',
  ring: 'Ring',
  about: 'About',
  standing: 'Stands',
  saidYes: 'Said yes',
  saidNo: 'Said no',
  nextNow: 'Nobody answers: next now',
  takeBack: 'Take the ask back',
  answer: 'Write the answer down',
  by: 'Who answered',
  reason: 'Why not',
  optional: 'Only if it was said',
  comesAt: 'When the vet sees it',
  comesAtHint: 'A yes needs a day and a time',
  makeLink: 'Make a link to send',
  linkNote: 'Opens one page for one answer, without an account. A new link ends the one before.',
  linkMade: 'The link, shown once',
  toSend: 'Text to send or to read aloud',
  askNow: 'Ask now, answer to come',
  askNowNote: 'Keeps the place and rings one after another until somebody answers.',
  done: 'Written down',
  refer: 'Put it to a vet',
  referNote: 'The practice sees the facts below and answers yes with a time, or no.',
  practice: 'Practice',
  what: 'What is asked of the vet',
  home: 'Where it goes afterwards',
  noHome: 'Not known yet',
  offers: 'What the centre offers afterwards',
  offersHint: 'Cage rest, a long aviary, checks again',
  put: 'Ask this practice',
  nobodyYes: 'Nobody has said yes: place it anew and ring the finder',
  moving: 'An ask whose time is over moves on within seconds',
  toAnimal: 'Open the animal',
  toCall: 'Open the call',
  tried: 'Rung so far',
  send: 'Send it',
  sendNote: 'To read aloud, or for a message. The link opens one page for one answer.',
  others: 'Asked beside or before',
  said: 'What was said',
  keep: 'Write it down',
  askedNext: 'The next one is asked',
  card: 'Asks and referrals',
  nobodyAsked: 'Nobody was asked about it',
  nobodyAskedComing: 'Asks of centres and vets stand here with their answers.',
} as const

/** What is kept with calls, plans and call-backs. */
export const ASK_TURN = {
  standingOffer: 'Its standing offer',
  firstLook: 'A first look',
  wasSilent: (centre: string) => `${centre} was silent`,
  saidNo: (centre: string) => `${centre} said no`,
  nobodyLeft: (centre: string) => `Nobody is left to ask after ${centre}: place it anew and ring the finder`,
  tellAgreed: (centre: string) => `Ring the finder: it goes to ${centre}, by its standing offer`,
  tellAnswer: (centre: string) => `Ring the finder with the answer of ${centre}`,
} as const

type Stop = {
  readonly stage: string
  readonly housing: HousingType
  readonly centre: { readonly name: string }
}

const OFFERS_MAX = 400

/** "Critical care in intensive care, then restricted activity in a hospital cage": what a centre has for afterwards. */
export function offersOf(path: readonly Stop[]): string {
  const first = path[0]?.centre.name
  const there = path.filter(stop => stop.centre.name === first)
  return there
    .map(stop => `${stop.stage}: ${housingWords(stop.housing)}`)
    .join('; ')
    .slice(0, OFFERS_MAX)
}

const SHOWN: Readonly<Record<AskShown, string>> = {
  held: 'held, not looked at yet',
  seen: 'seen, no answer yet',
  agreed: 'agreed',
  refused: 'said no',
  silent: 'silent',
  'taken back': 'taken back',
}

/** "seen, no answer yet". */
export function shownWords(shown: AskShown): string {
  return SHOWN[shown]
}

/** "waits until 02:31, 7 min left". */
export function waitsWords(lapsesAt: Date, now: Date, zone: string): string {
  const left = Math.ceil((lapsesAt.getTime() - now.getTime()) / 60_000)
  const rest = left <= 0 ? 'due now' : left < 90 ? `${left} min left` : `${Math.round(left / 60)} h left`
  return `waits until ${clockTime(lapsesAt, zone)}, ${rest}`
}

type Answered = {
  readonly shown: AskShown
  readonly by: string | null
  readonly at: Date | null
  readonly reason: string | null
  readonly comesAt: Date | null
}

/** "agreed, Corin Esslemay, Wed 25 Nov, 23:43; seen by the vet Thu 26 Nov, 10:00". */
export function answeredWords({ shown, by, at, reason, comesAt }: Answered, zone: string): string {
  const head = [shownWords(shown), by, at === null ? null : dayAndClock(at, zone)].filter(Boolean).join(', ')
  const rest = [
    reason === null || reason === '' ? null : reason,
    comesAt === null ? null : `seen by the vet ${dayAndClock(comesAt, zone)}`,
  ].filter(Boolean)
  return [head, ...rest].join('; ')
}

/** "rung at 02:10, silent" for each who was tried before. */
export function triedWords(name: string, at: Date, zone: string): string {
  return `${name}, rung from ${clockTime(at, zone)}`
}

/** "The place at Farrowmere Flights ran out with its silence". */
export function placeRanOut(centre: string): string {
  return `The place at ${centre} ran out with its silence`
}

type Asked = {
  readonly shown: AskShown
  readonly to: { readonly name: string }
  readonly comesAt: Date | null
}

/** "Ring Farrowmere Flights", or how it ended. */
export function askHead({ shown, to }: Asked): string {
  switch (shown) {
    case 'held':
    case 'seen':
      return `Ring ${to.name} for an answer`
    case 'agreed':
      return `${to.name} said yes`
    case 'refused':
      return `${to.name} said no`
    case 'silent':
      return `${to.name} was silent`
    case 'taken back':
      return `The ask of ${to.name} was taken back`
  }
}

/** "Rush 12 waits for the answer of Farrowmere Flights". */
export function waitsFor(references: readonly string[], centre: string): string {
  const [first, ...more] = references
  const who = more.length === 0 ? `${first ?? 'It'} waits` : `${first} and ${more.length} more wait`
  return `${who} for the answer of ${centre}`
}

/** "Rookhythe Vets, no vet on duty now". */
export function practiceChoice(name: string, isShut: boolean, sees: boolean): string {
  return [name, sees ? '' : 'does not see this kind', isShut ? 'no vet on duty now' : '']
    .filter(Boolean)
    .join(', ')
}
