/**
 * Releases in words: what stands against one, what the fit wait for, where an animal went.
 * Promise: each bar is one sentence; days of waiting are said as they are and offered as relief to nobody; the place of
 * a sensitive species is told only roughly to whoever does not need more.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import type { Bar, ReleaseWay, Site, WaitsFor } from '#lib/domain/release.ts'
import { checkName } from './care.ts'
import { monthDayWords } from './casualty-plan.ts'
import { implantName } from './check.ts'
import { dayAndClock, nearDate } from './dates.ts'
import { markWords } from './mark.ts'
import { outcomeWords } from './outcome.ts'

export const RELEASE = {
  title: 'Releases',
  fit: 'Fit, but still here',
  nobodyFit: 'Nobody is fit to go',
  nobodyFitComing:
    'Whoever is ready to leave the last stage of its plan, past every gate, stands here until it has gone.',
  atGate: 'Said ready, a gate not passed',
  atGateNote: 'Record the check on its card, or take back that it is ready.',
  readySince: 'Said ready',
  plan: 'Plan a release',
  planNote: 'The law, the season and a vet’s word are the duty of the centre that keeps the animal.',
  planned: 'Planned',
  nonePlanned: 'No release is planned',
  nonePlannedComing: 'A planned release stands here until it is recorded or called off.',
  done: 'Gone in the last 30 days',
  noneDone: 'No release with its place was recorded in the last 30 days',
  noneDoneComing: 'Each release stands here with its place and its marks.',
  tally: 'How the cases of this year stand',
  tallyNote: 'Admitted since 1 January, each once. An arrival is in care while one of its animals is.',
  stands: 'Stands',
  animals: 'Animals',
  arrivals: 'Arrivals',
  admitted: 'Admitted',
  nothingAdmitted: 'Nothing was admitted this year yet',
  nothingAdmittedComing: 'Each case counts here from its arrival on.',
  animal: 'Animal',
  where: 'Where it is',
  since: 'Fit since',
  waits: 'Waits for',
  against: 'What stands against it',
  nothingAgainst: 'nothing',
  choose: 'Goes',
  at: 'When',
  atHint: 'Empty means now.',
  site: 'Place',
  siteHint: 'In words that the releaser finds it by.',
  latitude: 'Latitude',
  longitude: 'Longitude',
  degreesHint: 'Both or neither, such as 54.21 and -3.04.',
  way: 'How',
  releaser: 'Who releases',
  ring: 'Ring or mark',
  went: 'Went?',
  yes: 'Went',
  no: 'Stayed',
  record: 'Record the release',
  callOff: 'Call it off',
  wait: 'What it waits for',
  waitHint: 'Nothing ticked: it waits for nothing.',
  planLink: 'Plan its release',
  plannedFor: 'Planned for',
  barredSince: 'Something stands against it now',
  flagged: 'It was released although something stood against it',
} as const

/** "In care", "Released". */
export function stateWords(state: 'in care' | Outcome): string {
  return state === 'in care' ? 'In care' : outcomeWords(state)
}

const WAIT: Readonly<Record<WaitsFor, string>> = {
  weather: 'Weather',
  driver: 'A driver',
  ring: 'A ring',
  permission: 'Permission',
  group: 'Its group',
}

export function waitChoice(one: WaitsFor): string {
  return WAIT[one]
}

/** "weather, a driver"; "nothing said". */
export function waitWords(waits: readonly WaitsFor[]): string {
  return waits.length === 0 ? 'nothing said' : waits.map(one => WAIT[one].toLowerCase()).join(', ')
}

const WAY: Readonly<Record<ReleaseWay, string>> = {
  hard: 'At once: taken to the place and let go',
  soft: 'Softly: from a pen or aviary at the place, with food for a while',
}

export function wayWords(way: ReleaseWay): string {
  return WAY[way]
}

/** One thing that stands against a release, one sentence without a full stop. */
export function barSentence(bar: Bar): string {
  switch (bar.rule) {
    case 'gate': {
      const gate = `${checkName(bar.slug)} (${bar.what})`
      return bar.isFailed ? `${gate} was not passed` : `${gate} is not passed yet`
    }
    case 'implant':
      return `${implantName(bar.kind)} is recorded in place, and no vet has signed that it stays`
    case 'law':
      return `The law bars its release without a licence of its own: ${bar.meaning}`
    case 'season': {
      const { opens, closes, mark } = bar.season
      return `Out of its season, ${monthDayWords(opens)} to ${monthDayWords(closes)} (${markWords(mark)}): it overwinters or moves`
    }
    case 'vet':
      return 'Its plan asks for the word of a vet that it may go'
  }
}

type Barred = { readonly reference: string; readonly bars: readonly Bar[] }

/** "Bramble 13 can't be planned: a pin is recorded in place, ...". Every animal, every bar. */
export function barredWords(barred: readonly Barred[]): string {
  return barred.map(({ reference, bars }) => `${reference}: ${bars.map(barSentence).join('; ')}`).join('. ')
}

/** "since Thu 19 Nov, 10 days". */
export function fitSinceWords(since: DayNumber, today: DayNumber): string {
  return `${nearDate(since, today)}, ${waitedWords(today - since)}`
}

export function waitedWords(days: number): string {
  return days === 1 ? '1 day' : `${days} days`
}

/** The answer of the page: "6 animals are fit and still here; 41 place-days of waiting so far". */
export function fitSentence(animals: number, placeDays: number): string {
  if (animals === 0) return RELEASE.nobodyFit
  const who = animals === 1 ? '1 animal is fit and still here' : `${animals} animals are fit and still here`
  return `${who}, ${placeDays === 1 ? '1 place-day' : `${placeDays} place-days`} of waiting so far`
}

/** "31 animals left for the wild in these days by their card or the round, with no place recorded". */
export function leftWithoutPlanWords(animals: number): string {
  const who = animals === 1 ? '1 animal' : `${animals} animals`
  return `${who} left for the wild in these days by a card or the round, with no place recorded.`
}

/** "weather 12 days, a driver 3 days"; an animal that waits for two things counts in both. */
export function waitedFor(sums: ReadonlyMap<WaitsFor, number>): string {
  const parts = [...sums].map(([one, days]) => `${WAIT[one].toLowerCase()} ${waitedWords(days)}`)
  return parts.length === 0
    ? 'Nobody has said what they wait for.'
    : `By what they wait for: ${parts.join(', ')}.`
}

/** "Thu 3 Dec, 10:00, Heskwith wood: 4 animals, Odile Brackenray". */
export function plannedHead(
  release: { readonly at: Date; readonly site: string; readonly animals: number; readonly releaser: string },
  zone: string,
): string {
  const animals = release.animals === 1 ? '1 animal' : `${release.animals} animals`
  return `${dayAndClock(release.at, zone)}, ${release.site}: ${animals}, ${release.releaser}`
}

/** "Heskwith wood (54.212, -3.041)"; "place kept back, within about 10 km of 54.2, -3". */
export function siteWords({ words, at, isCoarse }: Site & { readonly isCoarse: boolean }): string {
  const point = at === null ? '' : `${at.latitude}, ${at.longitude}`
  if (isCoarse) return point === '' ? 'place kept back' : `place kept back, within about 10 km of ${point}`
  return point === '' ? words : `${words} (${point})`
}

/** "ring EV 12345" or nothing. */
export function ringWords(ring: string | null): string {
  return ring === null ? 'no ring or mark' : `ring or mark ${ring}`
}

export const RELEASE_RULES = {
  'release-barred': {
    say: 'Something stands against this release',
    next: 'Leave that animal out, or pass what bars it. Everything typed is kept.',
  },
  'release-of-nobody': {
    say: 'Nobody is ticked',
    next: 'Tick at least one animal. Everything typed is kept.',
  },
  'release-over': {
    say: 'This release was recorded or called off a moment ago',
    next: 'Look at what it says now.',
  },
  'nobody-went': {
    say: 'Nobody of this release went',
    next: 'Say who went, or call it off.',
  },
} as const

/** "Bramble 13, Herring gull". */
export function animalOf(reference: string, species: string): string {
  return `${reference}, ${species}`
}

const DONE: Readonly<Record<string, string>> = {
  planned: 'Release planned; its animals are booked to leave',
  gone: 'Release recorded',
  off: 'Release called off; the bookings are taken back',
}

/** What was just done; nothing for words that are not ours. */
export function releaseDone(key: string | undefined): string | undefined {
  return key !== undefined && Object.hasOwn(DONE, key) ? DONE[key] : undefined
}
