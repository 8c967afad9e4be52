/**
 * The words of the frame around every page: navigation, skip links, demo line, paging and sorting.
 * Promise: each page is called the same everywhere, with a short form for the foot of a phone.
 */

export const NAV_WORDS = {
  calls: { long: 'Calls', short: 'Calls' },
  due: { long: 'Due', short: 'Due' },
  round: { long: 'Round', short: 'Round' },
  'who-is-where': { long: 'Who is where', short: 'Who' },
  moves: { long: 'Moves', short: 'Moves' },
  'weeks-ahead': { long: 'Weeks ahead', short: 'Weeks' },
  setup: { long: 'Setup', short: 'Setup' },
} as const
export type NavKey = keyof typeof NAV_WORDS

export const SHELL_WORDS = {
  name: 'Roostwright',
  navigation: 'Main',
  skipToContent: 'Skip to the content',
  demo: 'Demo: everything here is invented',
  asTable: 'As a table',
  pages: 'Pages',
  before: 'Before',
  after: 'After',
  orderBy: 'In order of',
} as const

/** "4 wait for you". */
export function waitingWords(count: number): string {
  return count === 1 ? '1 waits for you' : `${count} wait for you`
}

/** "21 to 40 of 212 animals". */
export function pageSpan(from: number, to: number, total: number, noun: string): string {
  return `${from} to ${to} of ${total} ${noun}`
}

/** What a head that sorts says to a screen reader. */
export function sortWords(sort: 'ascending' | 'descending' | undefined): string {
  if (sort === 'ascending') return ', lowest first; turn round'
  if (sort === 'descending') return ', highest first; turn round'
  return ', put in order'
}

/** What the demo line adds when the invented day is not today. */
export function demoAgeWords(days: number): string {
  return `made for ${days === 1 ? 'yesterday' : `${days} days ago`}; npm run demo -- --fresh makes it anew`
}
