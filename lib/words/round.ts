/**
 * What the Round says: a centre in one sentence, each enclosure's state, how old the count is.
 * Promise: every pattern of the drawing has its words; what is expected says "about". Times by the network's clock.
 */
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { clockTime, dayAndClock, nearDate, shortDate } from './dates.ts'

export const ROUND = {
  title: 'Round',
  choose: 'Which centre',
  chooseNote: 'Each in walking order.',
  chooseSentence: 'Choose a centre to go round',
  another: 'Another centre',
  asPlan: 'As a plan',
  asList: 'As a list, to record',
  asShown: 'As shown',
  asShownNote: 'Went round and it is as shown: one tap counts the centre.',
  counted: 'The count',
  indoors: 'Indoors',
  indoorsNote: 'Choose an animal to fix its line.',
  outdoors: 'Outdoors',
  outdoorsNote: 'In walking order.',
  nowhere: 'In the building',
  nowhereNote: 'In no enclosure. Each needs a place.',
  list: 'Walking order',
  listNote: 'Choose an animal, then what you found. Each tap can be taken back for ten seconds.',
  centre: 'Centre',
  inside: 'Animals',
  lastCount: 'Counted',
  alone: 'alone',
  nothing: 'No enclosure is set up here',
  nothingComing: 'Setup adds rooms and enclosures in walking order.',
  none: 'No centre is set up yet',
  noneComing: 'An administrator adds centres in setup.',
  lobby: 'lobby: change boots and gown here',
} as const

type Counts = {
  readonly inside: number
  readonly expected: number
  readonly emptyEnclosures: number
  readonly placesBeside: number
}

/** "15 in, 1 expected, 7 enclosures free, 4 places free beside others". */
export function roundSentence({ inside, expected, emptyEnclosures, placesBeside }: Counts): string {
  const parts = [`${inside} in`]
  if (expected > 0) parts.push(`${expected} expected`)
  parts.push(`${emptyEnclosures} ${emptyEnclosures === 1 ? 'enclosure' : 'enclosures'} free`)
  if (placesBeside > 0)
    parts.push(`${placesBeside} ${placesBeside === 1 ? 'place' : 'places'} free beside others`)
  return parts.join(', ')
}

/** "Counted today, 07:50"; what is older than a day asks for a round. */
export function countedWords(countedAt: Date | null, now: Date, zone: string): string {
  if (countedAt === null) return 'Never counted: go round once and say so'
  const today = dayOfInstant(now, zone)
  const day = dayOfInstant(countedAt, zone)
  const hours = (now.getTime() - countedAt.getTime()) / 3_600_000
  const when = `Counted ${nearDate(day, today)}, ${clockTime(countedAt, zone)}`
  return hours < 24 ? when : `${when}: more than a day ago, so options say to ring first`
}

type InUse = { readonly free: number; readonly held: number; readonly drying: number; readonly shut: number }

/** "3 free, 1 held, 1 drying, 1 shut". */
export function roomSummary({ free, held, drying, shut }: InUse): string {
  const parts = [
    `${free} free`,
    held > 0 ? `${held} held` : '',
    drying > 0 ? `${drying} drying` : '',
    shut > 0 ? `${shut} shut` : '',
  ].filter(Boolean)
  return `${parts.join(', ')}.`
}

/** "until about 27 Nov". */
export function untilAbout(day: DayNumber, isKnown: boolean): string {
  return isKnown ? `until about ${shortDate(day)}` : `until after ${shortDate(day)}`
}

/** "leaves Fri 27 Nov, 10:00". */
export function leavesAt(at: Date, zone: string): string {
  return `leaves ${dayAndClock(at, zone)}`
}

/** What stands on a cage of an animal that waits to go on or to go. */
export function readyWords(isLast: boolean): string {
  return isLast ? 'fit to go' : 'ready for its next stage'
}

/** "held, due Wed 25 Nov, 14:00". */
export function heldWords(expectedAt: Date | null, startsAt: Date, now: Date, zone: string): string {
  if (startsAt > now) return `held from ${dayAndClock(startsAt, zone)}`
  return expectedAt === null ? 'held' : `held, due ${dayAndClock(expectedAt, zone)}`
}

/** "drying, free Thu 26 Nov, 12:00". */
export function dryingWords(until: Date, zone: string): string {
  return `drying, free ${dayAndClock(until, zone)}`
}

/** "shut, netting torn, until Wed 16 Dec, 09:00". */
export function shutWords(reason: string, until: Date | null, zone: string): string {
  const end = until === null ? 'until further notice' : `until ${dayAndClock(until, zone)}`
  return `shut, ${reason.charAt(0).toLowerCase()}${reason.slice(1)}, ${end}`
}

/** Beside "free": how many more, or how many at most. */
export function freeNote(free: number, isEmpty: boolean): string | undefined {
  if (isEmpty) return free > 1 ? `(up to ${free})` : undefined
  return free > 1 ? `(${free} more)` : undefined
}

type Outdoors = {
  readonly inside: number
  readonly free: number
  readonly isEmpty: boolean
  readonly isShut: boolean
}

/** "4 in. 2 places free."; of a run of empty neighbours how many there are. */
export function summaryOut(count: number, { inside, free, isEmpty, isShut }: Outdoors): string {
  if (isShut) return ''
  if (count > 1) return `${count}, nobody in. Each takes up to ${free}.`
  if (isEmpty) return free > 1 ? `Nobody in. Takes up to ${free}.` : 'Nobody in.'
  const left = free === 0 ? 'No place free.' : free === 1 ? '1 place free.' : `${free} places free.`
  return `${inside} in. ${left}`
}

/** The rest of a long row: "Isolation block, further on". */
export function furtherPart(name: string): string {
  return `${name}, further on`
}

/** "Heated unit 4 to 20". */
export function runName(first: string, last: string): string {
  if (first === last) return first
  const head = first.replace(/\s*\d+$/, '')
  return last.startsWith(head) ? `${first} to ${last.slice(head.length).trim()}` : `${first} to ${last}`
}

/** Beside "free" on a run of neighbours: "(17, each up to 3)". */
export function eachWords(count: number, free: number): string {
  return free > 1 ? `(${count}, each up to ${free})` : `(${count})`
}

/** Names in a row, runs of numbers together: "Pen 1, Pen 4 to 9". */
export function nameRuns(names: readonly string[]): string {
  const runs: { first: string; last: string }[] = []
  for (const name of names) {
    const run = runs.at(-1)
    if (run !== undefined && isNextNumber(run.last, name)) run.last = name
    else runs.push({ first: name, last: name })
  }
  return runs.map(({ first, last }) => runName(first, last)).join(', ')
}

function isNextNumber(before: string, name: string): boolean {
  const [a, b] = [before, name].map(one => /^(.*?)\s*(\d+)$/.exec(one))
  return a?.[1] !== undefined && a[1] === b?.[1] && Number(a[2]) + 1 === Number(b?.[2])
}

/** "12 animals". */
export function animalsWords(count: number): string {
  return count === 1 ? '1 animal' : `${count} animals`
}
