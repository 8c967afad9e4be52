/**
 * The words of the setup pages: the answer of each list, heads, buttons, what was just done.
 * Promise: an answer says how much is set up and what is unlike the rest; an empty list says what comes there.
 */
import type { SetupCounts, SetupWord } from '#lib/domain/setup-counts.ts'
import { presetWords, siteStateWords } from './setup.ts'

export const SETUP_NOUNS = [
  'centres',
  'rooms',
  'enclosures',
  'companies',
  'closures',
  'stops',
  'practices',
  'drivers',
  'arrivals',
  'species',
  'seasons',
  'groups',
  'conditions',
  'plans',
  'rules',
  'places',
  'policy',
  'people',
] as const satisfies readonly SetupWord[]

export const SETUP_PAGE = {
  index: 'Setup',
  indexAnswer: 'What the network is made of',
  indexBasis:
    'Nothing is deleted: what is no longer used is switched off. Every change is kept with who made it and when.',
  words: 'Index',
  list: 'List',
  review: 'Last review',
  name: 'Name',
  centre: 'Centre',
  room: 'Room',
  kind: 'Kind',
  state: 'State',
  hours: 'Hours',
  phone: 'Phone',
  night: 'At night',
  enclosures: 'Enclosures',
  on: 'on',
  off: 'switched off',
  yes: 'yes',
  no: 'no',
  none: 'none',
  notSaid: 'not said',
  save: 'Save the change',
  seeNow: 'See what it says now',
  switching: 'Switching off',
  switchOff: 'Switch off',
  switchOn: 'Switch on again',
  switchNote: 'It is kept with its past, and offered nowhere.',
  who: 'Who it is',
  where: 'Where it is',
  latitudeHint: 'Degrees, north is more than 0, such as 54.3',
  longitudeHint: 'Degrees, east is more than 0, such as -2.7',
  weekday: 'Day',
  opens: 'Opens',
  closes: 'Closes',
  hoursHint:
    'One line a day and opening, times such as 08:00; midnight is 24:00. Empty lines count for nothing.',
  allHours: 'Everything',
  filter: 'Show',
  all: 'All',
  choose: 'Choose one',
} as const

const KEPT: Readonly<Record<string, string>> = {
  added: 'Added',
  changed: 'The change is saved',
  on: 'Switched on again',
  off: 'Switched off',
  lifted: 'The closure is lifted',
  closed: 'The closure is set',
  stopped: 'The state is set',
  ended: 'The state is ended',
  imported: 'The table is taken in',
  walked: 'The walking order is changed',
  'taken-back': 'The planned state is taken back',
  password: 'The new password holds, and every session with the old one has ended',
}

/** What was just done, by the word in the address. */
export function keptWords(kept: string | undefined): string | undefined {
  return kept !== undefined && Object.hasOwn(KEPT, kept) ? KEPT[kept] : undefined
}

const many = (count: number, one: string, several: string) => `${count} ${count === 1 ? one : several}`

/** What the index says beside each word. */
export function indexLine(word: SetupWord, counts: SetupCounts): string {
  switch (word) {
    case 'centres':
      return `${many(counts.centres, 'centre', 'centres')}: hours, who opens at night, what they take and offer`
    case 'rooms':
      return `${many(counts.rooms, 'room', 'rooms')}, in walking order`
    case 'enclosures':
      return `${many(counts.enclosures, 'enclosure', 'enclosures')}: housing, size, who may be in`
    case 'closures':
      return counts.closures === 0 ? 'nothing is closed' : many(counts.closures, 'closure', 'closures')
    case 'stops':
      return counts.stops === 0
        ? 'every site is open'
        : many(counts.stops, 'site is not open', 'sites are not open')
    case 'companies':
      return `${many(counts.companies, 'company', 'companies')}: who may share, who is predator and who prey`
    case 'species':
      return `${counts.species} species: sizes, handling, licence facts`
    case 'groups':
      return `${many(counts.groups, 'group', 'groups')}: temperament, housing and usual numbers`
    case 'conditions':
      return `${many(counts.conditions, 'condition', 'conditions')}: what finders say, and what it maps to`
    case 'rules':
      return `${many(counts.rules, 'rule', 'rules')} of handling and licence, each with its last review`
    case 'seasons':
      return `${many(counts.seasons, 'season', 'seasons')}: when a species may be released, what it weighs before winter`
    case 'places':
      return `${many(counts.places, 'place', 'places')} that callers name`
    case 'practices':
      return `${many(counts.practices, 'practice', 'practices')}: hours, night cover, what they see`
    case 'drivers':
      return `${many(counts.drivers, 'driver', 'drivers')}: where and when they drive, in what`
    case 'arrivals':
      return `${counts.arrivals} animals a year, by centre, group and month`
    case 'plans':
      return `${many(counts.plans, 'plan', 'plans')}: stages, gates, and where each number comes from`
    case 'policy':
      return `${presetWords(counts.preset).name}; what the options weigh`
    case 'people':
      return `${many(counts.people, 'person', 'people')}: roles and passwords`
  }
}

/** "6 centres; 1 switched off". */
export function listAnswer(on: number, off: number, one: string, several: string): string {
  const shown = on === 0 ? `No ${one} yet` : many(on, one, several)
  return off === 0 ? shown : `${shown}; ${off} switched off`
}

/** "About 3406 animals a year, in 83 lines". */
export function animalsAnswer(animals: number, lines: number): string {
  if (lines === 0) return 'No arrivals are expected yet'
  return `About ${Math.round(animals)} animals a year, in ${many(lines, 'line', 'lines')}`
}

/** "The network weighs by the preset "Balanced"". */
export function policyAnswer(preset: SetupCounts['preset'], isAsPreset = true): string {
  const { name } = presetWords(preset)
  return isAsPreset
    ? `The network weighs by the preset "${name}"`
    : `The network weighs by the preset "${name}", with weights of its own`
}

/** How a row stands: in use, under a stop, or switched off. */
export function stateWords(
  isActive: boolean,
  stop: Parameters<typeof siteStateWords>[0] | null = null,
): string {
  if (!isActive) return SETUP_PAGE.off
  return stop === null ? SETUP_PAGE.on : siteStateWords(stop)
}

/** "Add a centre". */
export function addWords(what: string): string {
  return `Add ${what}`
}

/** What a list that is empty says. */
export function emptyWords(several: string): { readonly sentence: string; readonly coming: string } {
  return {
    sentence: `No ${several} yet`,
    coming: `An administrator adds the first; it stands here from then on.`,
  }
}

/** "Averbrook is switched on". */
export function switchedWords(name: string, isActive: boolean): string {
  return isActive ? name : `${name}, switched off`
}
