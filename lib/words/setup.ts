/**
 * Setup in words: what the presets give up, what choices mean, headings of the pages.
 * Promise: says of every preset what it costs, not only what it gives; figures are from our own simulation.
 */
import type { Preset } from '#lib/domain/policy.ts'

export const SETUP = {
  heading: 'Setup',
  centres: 'Centres',
  rooms: 'Rooms',
  enclosures: 'Enclosures',
  closures: 'Closures',
  stops: 'Movement stops',
  companies: 'Companies',
  groups: 'Groups of species',
  species: 'Species',
  rules: 'Licences and handling',
  seasons: 'Seasons of species',
  conditions: 'Conditions',
  places: 'Gazetteer',
  practices: 'Partner practices',
  drivers: 'Drivers',
  outside: 'Places outside',
  arrivals: "The year's arrivals",
  plans: 'Care plans',
  policy: 'Policy',
  people: 'People',
  add: 'Add',
  change: 'Change',
  switchOff: 'Switch off',
  switchOn: 'Switch on',
} as const

export type PresetSaid = { readonly name: string; readonly gives: string; readonly givesUp: string }

const PRESETS: Readonly<Record<Preset, PresetSaid>> = {
  'fewer-moves': {
    name: 'Fewer moves',
    gives: 'A quarter to a third of the transfers that "nearest with a free place" makes',
    givesUp: 'More days on which an animal has no proper place',
  },
  balanced: {
    name: 'Balanced',
    gives:
      'A third to three fifths of the transfers at about the same shortage as "nearest with a free place"',
    givesUp: 'Some drives that are longer than the nearest',
  },
  'proper-place-first': {
    name: 'A proper place first',
    gives: 'No more shortage than "nearest with a free place"',
    givesUp:
      'More transfers than the other presets: a third to two thirds of those of "nearest with a free place"',
  },
}

export function presetWords(preset: Preset): PresetSaid {
  return PRESETS[preset]
}

/** "Later days count 0.4, a night of arrival without a proper place 4 place-days". */
export function presetWeightWords(kappa: number, omega: number): string {
  return `Later days count ${kappa}, a night of arrival without a proper place ${omega} place-days`
}

export const PRESET_SOURCE = 'From our own simulated seasons, on an invented network; no published source.'

/** "one animal one day without a proper place counts like 40 km of driving". */
export function kmWeightWords(kmPerPlaceDay: number): string {
  return `One animal one day without a proper place counts like ${kmPerPlaceDay} km of driving`
}

const NIGHT_DOOR: Readonly<Record<'staffed' | 'on-call' | 'shut', string>> = {
  staffed: 'Somebody is there all night',
  'on-call': 'Somebody on call opens',
  shut: 'Nobody opens at night',
}

export function nightDoorWords(door: 'staffed' | 'on-call' | 'shut'): string {
  return NIGHT_DOOR[door]
}

const SITE_STATE: Readonly<Record<'closed-to-high-risk' | 'isolation-full' | 'no-movement', string>> = {
  'closed-to-high-risk': 'Takes no birds of groups at risk',
  'isolation-full': 'Isolation is full',
  'no-movement': 'Movement stop: nothing in, nothing out',
}

export function siteStateWords(state: 'closed-to-high-risk' | 'isolation-full' | 'no-movement'): string {
  return SITE_STATE[state]
}

const DRIES_AFTER: Readonly<Record<'each' | 'company', string>> = {
  each: 'after each animal',
  company: 'after the last of a company',
}

export function driesAfterWords(after: 'each' | 'company'): string {
  return DRIES_AFTER[after]
}

const ROOM_KIND: Readonly<Record<'ward' | 'isolation' | 'outdoors', string>> = {
  ward: 'Ward',
  isolation: 'Isolation',
  outdoors: 'Outdoors',
}

export function roomKindWords(kind: 'ward' | 'isolation' | 'outdoors'): string {
  return ROOM_KIND[kind]
}

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const

/** The name of a weekday, Monday = 1. */
export function weekdayWords(weekday: number): string {
  return WEEKDAYS[weekday - 1] ?? 'A day'
}

/** "Monday 08:00 to 20:00"; weekdays from 1, clock times as text. */
export function hoursWords(weekday: number, opens: string, closes: string): string {
  return `${WEEKDAYS[weekday - 1] ?? 'A day'} ${opens} to ${closes}`
}

/** The mark of the constructed monthly shares, once beside them. */
export const SEASON_NOTE =
  'The shares of the seasons are published (S22, S68); the months between them are constructed so that they repeat them.'
