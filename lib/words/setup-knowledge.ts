/**
 * What the trade knows, on the pages of setup: companies, groups, species, rules, conditions.
 * Promise: a rule that was not reviewed for a year says so; what a change does to animals in care is said beside it.
 */
import { dayOfDate } from '#lib/domain/day.ts'
import { REVIEW_EVERY_DAYS, type ReviewState } from '#lib/domain/review.ts'
import { dateWithYear } from './dates.ts'

export const COMPANY_PAGE = {
  head: 'The company',
  note: 'One company is in an enclosure at a time. How many of it, each enclosure says for itself.',
  key: 'Key',
  members: 'Who may share',
  side: 'Side',
  noSide: 'Neither predator nor prey',
  species: 'Species of it',
  speciesNote: 'Whoever must be alone has one place, whatever the number says.',
  noSpecies: 'No species is of this company',
  noSpeciesComing: 'A species says in its own form which company it is of.',
  enclosures: 'Enclosures',
  stocked: 'Where it is taken',
  stockedNote: 'The twenty with most places. The number is changed in the enclosure.',
  noStocked: 'No enclosure takes it',
  noStockedComing: 'An enclosure says in its own form how many of a company it takes.',
  places: 'Places',
  source: 'Source',
} as const

export const GROUP_PAGE = {
  head: 'The group',
  temperament: 'Temperament',
  note: 'A fact that is changed becomes ours, unless another source is named.',
  housing: 'Housing',
  housingNote:
    'Where it lives at each stage. Quarantine is always isolation. A stage without a kind is housed as the care plan says. Animals in care keep their plan.',
  asPlanned: 'As the care plan says',
  nothingElse: 'Nothing else',
  stock: 'Usual numbers',
  stockNote:
    'How many share an enclosure of each kind. New enclosures start from it; none that is there changes.',
  stockLabel: 'Together in one enclosure',
  minutes: 'Carer time',
  minutesNote: 'What one animal takes of a carer’s day, stage by stage. A care plan has its own.',
  minutesLabel: 'Minutes a day',
  handRearing: 'fed by hand',
  review: 'Review',
  species: 'Species',
  class: 'Class',
} as const

export const SPECIES_PAGE = {
  who: 'Names',
  share: 'Group and company',
  shareNote:
    'Animals in care keep the company that they came with; what is changed holds for those that come.',
  size: 'Size',
  young: 'Young',
  youngNote: 'Months from 1 to 12 in which young are brought.',
  handling: 'Handling and licences',
  handlingNote: 'What the rules say is changed under "Licences and handling".',
  notes: 'Release and notes',
  group: 'Group',
  company: 'Company',
  licences: 'Licence facts',
  massMark: 'Source of the weights',
} as const

export const RULE_PAGE = {
  forAll: 'No: any centre may hold them',
  forHolders: 'Yes: only centres named below',
  head: 'The rule',
  note: 'Licences are the duty of the centre that keeps the animal. A rule that is changed becomes ours, unless another source is named.',
  says: 'What it says',
  where: 'Where it holds',
  everywhere: 'everywhere',
  days: 'Days it counts',
  kind: 'Kind',
  key: 'Key',
  species: 'Said of',
  noSpecies: 'It is said of no species',
  noSpeciesComing: 'A species names its rules in its own form.',
  review: 'Last review',
  source: 'Source',
  licences: 'Licences',
  handling: 'Handling',
} as const

export const SEASON_PAGE = {
  head: 'The season',
  note: 'What is changed becomes ours, unless another source is named. Moult and the stage that keeps an animal over winter stand in the care plans.',
  basis:
    'Outside its season a release is barred with a sentence; one that happened is recorded all the same.',
  species: 'Species',
  from: 'From',
  until: 'Until',
  under: 'Overwintered under',
  source: 'Source',
  switchNote: 'It is kept with its past, and bars no release and asks for no weight.',
} as const

const SEASON_KIND: Readonly<Record<'migration' | 'hibernation', string>> = {
  migration: 'Migration: released within these days',
  hibernation: 'Hibernation: under this weight it is overwintered',
}

export function seasonKindWords(kind: keyof typeof SEASON_KIND): string {
  return SEASON_KIND[kind]
}

/** "Swift: migration". */
export function seasonTitle(species: string, kind: keyof typeof SEASON_KIND): string {
  return `${species}: ${kind}`
}

export const CONDITION_PAGE = {
  what: 'What it is called',
  wordsNote: 'A call finds the condition by these words, misspelt ones too.',
  maps: 'What it maps to',
  mapsNote:
    'A vet decides; this only arranges. What is changed becomes ours, unless another source is named.',
  asks: 'Questions',
  asksNote: 'Danger and bites are asked on every call.',
  cautions: 'Cautions',
  cautionsNote:
    'What is said wherever this condition is named. Others follow from the species and from what is answered.',
  urgency: 'Urgency',
  words: 'Finders say',
  plans: 'Care plans',
  kind: 'Kind',
  surgeon: 'Surgeon',
  none: 'none',
} as const

const ALONE: Readonly<Record<string, string>> = {
  yes: 'alone',
  season: 'alone in the breeding season',
  no: 'may share',
}

export function adultAloneWords(alone: string): string {
  return ALONE[alone] ?? alone
}

/** "Critical care, or else". */
export function orElseWords(stage: string): string {
  return `${stage}, or else`
}

/** "Review overdue: last on 1 September 2025". */
export function reviewWords(state: ReviewState, reviewedOn: string | null): string {
  if (state === 'never' || reviewedOn === null) return 'Not reviewed yet'
  const on = dateWithYear(dayOfDate(reviewedOn))
  return state === 'overdue' ? `Review overdue: last on ${on}` : `Reviewed on ${on}`
}

/** The sentence above a page whose review is overdue. */
export function overdueWords(reviewedOn: string | null): string {
  const on = reviewedOn === null ? 'no day that is known' : dateWithYear(dayOfDate(reviewedOn))
  return `The review is overdue: the last was on ${on}, and one is due every ${REVIEW_EVERY_DAYS} days`
}

export const OVERDUE_TODO =
  'Read the source again, correct what has changed, and write today as the day of the review.'

/** "37 rules; 2 reviews overdue". */
export function rulesAnswer(count: number, overdue: number): string {
  const rules = count === 1 ? '1 rule' : `${count} rules`
  if (overdue === 0) return rules
  return `${rules}; ${overdue === 1 ? '1 review overdue' : `${overdue} reviews overdue`}`
}

const RULE_KIND: Readonly<Record<'handling' | 'licence', string>> = {
  handling: 'Handling',
  licence: 'Licence',
}

export function ruleKindWords(kind: keyof typeof RULE_KIND): string {
  return RULE_KIND[kind]
}

const CONDITION_KIND: Readonly<Record<'reason' | 'finding', string>> = {
  reason: 'Reason it was found for',
  finding: 'Finding',
}

export function conditionKindWords(kind: keyof typeof CONDITION_KIND): string {
  return CONDITION_KIND[kind]
}

const APPLIES: Readonly<Record<'bird' | 'mammal' | 'both', string>> = {
  bird: 'Birds',
  mammal: 'Mammals',
  both: 'Birds and mammals',
}

export function appliesWords(to: keyof typeof APPLIES): string {
  return APPLIES[to]
}

const QUARANTINE: Readonly<Record<'none' | 'screen' | 'isolate', string>> = {
  none: 'None',
  screen: 'Ask about disease first',
  isolate: 'Isolation',
}

export function quarantineWords(quarantine: keyof typeof QUARANTINE): string {
  return QUARANTINE[quarantine]
}
