/**
 * What Who is where says: its filters as words, where an animal is, until when, what is due.
 * Promise: dates of what is expected say "about"; what has happened has its day. Who has an animal is always named.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import type { ListKind, ListOrder, ShortCause } from '#lib/domain/who-is-where.ts'
import { checkName, stageWords } from './care.ts'
import { dateSpan, nearDate, shortDate, weekdayDate } from './dates.ts'
import { outcomeWords } from './outcome.ts'

export const WHO = {
  title: 'Who is where',
  list: 'Animals',
  noun: 'animals',
  show: 'Show',
  find: 'Find',
  centre: 'Centre',
  anyCentre: 'Every centre',
  group: 'Kind',
  anyGroup: 'Every kind',
  stage: 'Stage',
  anyStage: 'Every stage',
  text: 'Reference or animal',
  textHint: 'A few letters, such as sam or kestrel',
  filter: 'Show these',
  all: 'Everything again',
  csv: 'This list as CSV',
  note: 'Small ribbons show the next eight weeks; under a likely day stand the dates between which 8 in 10 fall, if it lives and the plan holds.',
  noDate: 'no date yet',
  noPlan: 'no plan yet',
} as const

export const WHO_HEADS: Readonly<Record<ListOrder | 'ahead', string>> = {
  reference: 'Reference',
  species: 'Animal',
  stage: 'Stage',
  place: 'Place',
  since: 'There since',
  until: 'Until',
  ahead: 'Next eight weeks',
  check: 'Next check',
}

/** The head of a column; closed cases have an end instead of a place. */
export function headWords(column: ListOrder | 'ahead', isGone: boolean): string {
  if (isGone && column === 'place') return 'Outcome'
  if (isGone && column === 'since') return 'On'
  return isGone && column === 'stage' ? 'Last stage' : WHO_HEADS[column]
}

export const WHO_CSV = [
  'reference',
  'animal',
  'age',
  'stage',
  'place',
  'there since',
  'arrived',
  'ready since',
  'likely out',
  'next check due',
  'next check',
  'no proper place because',
] as const

const KIND: Readonly<Record<ListKind, string>> = {
  'in care': 'Everybody in care',
  short: 'No proper place',
  ready: 'Ready for the next stage',
  fit: 'Fit but still here',
  'on the way': 'Expected or on the way',
  gone: 'Closed cases',
}

/** A filter as a word to follow. */
export function kindWords(kind: ListKind): string {
  return KIND[kind]
}

const SHORT: Readonly<Record<ShortCause, string>> = {
  'no-enclosure': 'in no enclosure',
  closed: 'its enclosure is closed',
  'not-stocked': 'its enclosure is not set up for its kind',
  company: 'it is in with animals it may not share with',
  room: 'predator and prey are in one room',
  full: 'its enclosure is full',
  quarantine: 'quarantine is kept in isolation only',
}

/** "No proper place: its enclosure is full". */
export function shortWords(because: ShortCause): string {
  return `No proper place: ${SHORT[because]}`
}

type Where = {
  readonly keeper: 'finder' | 'driver' | 'practice' | 'centre' | 'nobody'
  readonly keeperName: string | null
  readonly centre: string | null
  readonly enclosure: string | null
  readonly outcome: Outcome | null
}

/** "Averbrook, Ward cage 8"; "with its finder"; "Released". */
export function placeWords({ keeper, keeperName, centre, enclosure, outcome }: Where): string {
  switch (keeper) {
    case 'finder':
      return 'with its finder'
    case 'driver':
      return keeperName === null ? 'on the road' : `on the road, ${keeperName}`
    case 'practice':
      return keeperName ?? 'with a practice'
    case 'centre':
      return [centre, enclosureWords({ enclosure })].filter(Boolean).join(', ')
    case 'nobody':
      return outcome === null ? 'closed' : outcomeWords(outcome)
  }
}

/** "Ward cage 8", or that it is in none. */
export function enclosureWords({ enclosure }: Pick<Where, 'enclosure'>): string {
  return enclosure ?? 'in the building'
}

/** "Restricted activity", and that it is ready to leave it. */
export function whoStage(row: {
  readonly keeper: Where['keeper']
  readonly stage: CareStage | null
  readonly readyAt: Date | null
  readonly isLastStage: boolean
}): string {
  if (row.stage === null) return row.keeper === 'nobody' ? '' : WHO.noPlan
  if (row.readyAt === null || row.keeper === 'nobody') return stageWords(row.stage)
  return row.isLastStage ? `${stageWords(row.stage)}, fit to go` : `${stageWords(row.stage)}, ready to go on`
}

/** "day 20". */
export function dayInCare(arrived: DayNumber, today: DayNumber): string {
  return `day ${Math.max(1, today - arrived + 1)}`
}

/** "fit since Mon 23 Nov, 3 days". */
export function fitSince(since: DayNumber, today: DayNumber): string {
  const days = today - since
  if (days <= 0) return 'fit since today'
  return `fit since ${weekdayDate(since)}, ${days} ${days === 1 ? 'day' : 'days'}`
}

/** "out about 16 Jan". */
export function outAbout(median: DayNumber, isKnown: boolean): string {
  return isKnown ? `out about ${shortDate(median)}` : `out after ${shortDate(median)}`
}

/** "3 Jan to 1 Feb": 8 in 10 fall between. */
export function eightInTenOut(q10: DayNumber, q90: DayNumber): string {
  return dateSpan(q10, q90)
}

/** "Radiograph tomorrow", "Weigh, overdue since Mon 23 Nov". */
export function nextCheckWords(slug: string, dueOn: DayNumber, today: DayNumber): string {
  if (dueOn < today) return `${checkName(slug)}, overdue since ${weekdayDate(dueOn)}`
  return `${checkName(slug)} ${nearDate(dueOn, today)}`
}

/** "expected today, 14:00 at Averbrook, Ward cage 3". */
export function expectedWords(when: string, where: string): string {
  return `expected ${when}: ${where}`
}

const SAID: Readonly<Record<ListKind, readonly [one: string, many: (count: number) => string]>> = {
  'in care': ['1 animal in care', count => `${count} animals in care`],
  short: [
    '1 animal in the building has no proper place',
    count => `${count} animals in the building have no proper place`,
  ],
  ready: ['1 animal is ready for its next stage', count => `${count} animals are ready for their next stage`],
  fit: ['1 animal is fit but still here', count => `${count} animals are fit but still here`],
  'on the way': [
    '1 animal is expected or on the way',
    count => `${count} animals are expected or on the way`,
  ],
  gone: ['1 closed case', count => `${count} closed cases`],
}

/** The list in one sentence. */
export function listSentence(kind: ListKind, total: number, isFiltered: boolean): string {
  const [one, many] = SAID[kind]
  const said = total === 1 ? one : many(total)
  return isFiltered ? `${said}, of those asked for` : said
}

const NOBODY: Readonly<Record<ListKind, { readonly sentence: string; readonly coming: string }>> = {
  'in care': {
    sentence: 'Nobody is in care',
    coming: 'As soon as an option of a call is taken, its animal stands here.',
  },
  short: {
    sentence: 'Everybody in the building has a proper place',
    coming: 'Whoever is recorded where no place fits stands here until it has one.',
  },
  ready: {
    sentence: 'Nobody waits for the next stage',
    coming: 'Whoever is recorded as ready stands here until its next stage begins.',
  },
  fit: {
    sentence: 'Nobody is fit and still here',
    coming: 'Whoever is ready to leave its last stage stands here, with the days it has waited.',
  },
  'on the way': {
    sentence: 'Nobody is expected or on the way',
    coming: 'Taking an option keeps a place; from then on the animal stands here until it has arrived.',
  },
  gone: { sentence: 'No case is closed yet', coming: 'Each case stands here once its outcome is recorded.' },
}

/** What an empty list says. */
export function nobodyWords(kind: ListKind, isFiltered: boolean): { sentence: string; coming: string } {
  return isFiltered
    ? { sentence: 'Nobody of that kind', coming: 'Other words or another centre may show more.' }
    : NOBODY[kind]
}
