/**
 * What the card of an animal says: the answer, what is due, what stands before its release, its facts.
 * Promise: what is expected says "about"; an animal's end is named and never weighed. Days of the network's calendar.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { Outcome } from '#lib/domain/outcome.ts'
import type { ShortCause } from '#lib/domain/who-is-where.ts'
import { capital } from './capital.ts'
import { checkName, stageWords } from './care.ts'
import { dayAndClock, longDate, nearDate, weekdayDate } from './dates.ts'
import { markWords } from './mark.ts'
import { outcomeWords } from './outcome.ts'
import { shortWords } from './who-is-where.ts'

export const CARD = {
  stay: 'The stay',
  noStay: 'No stay yet',
  noStayComing: 'Once it has a care plan, its stages stand here with their likely dates.',
  due: 'Due',
  later: 'Later in its stay',
  nothingDue: 'Nothing is due',
  nothingDueComing: 'Checks of the next stage stand here with their dates once it begins.',
  before: 'Before release',
  beforeNote: 'Every line must be passed.',
  season: 'season',
  shortKept: 'The fact stands as it was recorded. It counts as a place-day short until a place is found.',
  noGates: 'No line stands before its release',
  noGatesComing: 'A care plan adds what must be passed.',
  passed: 'passed',
  notPassed: 'not passed',
  open: 'open',
  facts: 'Facts',
  happened: 'What happened',
  happenedNote: 'Newest first. Nothing is deleted.',
  change: 'Change the plan',
  closedChange: 'The case is closed. Take its outcome back to change anything.',
  found: 'Found',
  reasons: 'What is wrong',
  came: 'Came with',
  keeper: 'With whom',
  held: 'Kept for it',
  giveBack: 'Give it back',
  weight: 'Weight',
  noWeight: 'not weighed yet',
  company: 'Company',
  licence: 'Licence clock',
  noLicence: 'none for this species here',
  phone: 'Ring',
  broken: 'A promise broke: somebody needs another place',
  shortTodo: 'Move it',
  misfit: 'Its enclosure does not suit the stage it is in',
  backToList: 'Who is where',
} as const

/** "Kestrel, adult". */
export function animalLine(species: string, age: string): string {
  return age === 'unknown' ? `${species}, age not known` : `${species}, ${age}`
}

type Standing = {
  readonly day: number
  readonly keeper: 'finder' | 'driver' | 'practice' | 'centre' | 'nobody'
  readonly outcome: Outcome | null
  readonly endedOn: DayNumber
  readonly today: DayNumber
  readonly expected: string | null
  readonly short: ShortCause | null
  readonly fitSince: DayNumber | null
  readonly readyFor: CareStage | null
  readonly out: DayNumber | null
  readonly next: { readonly slug: string; readonly dueOn: DayNumber } | null
}

/** The card in one sentence: where it stands, and what comes next. */
export function cardSentence(standing: Standing): string {
  const { keeper, outcome, day, next, today } = standing
  if (keeper === 'nobody') {
    return `${outcome === null ? 'Case closed' : outcomeWords(outcome)} on ${weekdayDate(standing.endedOn)}, day ${day}`
  }
  const due = next === null ? '' : `. ${dueWords(next.slug, next.dueOn, today)}`
  return `${stateWords(standing)}${due}`
}

function stateWords({ day, short, fitSince, readyFor, out, today, expected, keeper }: Standing): string {
  if (short !== null) return `${shortWords(short)}, in the building on day ${day}`
  if (expected !== null && keeper !== 'centre') return `Expected ${expected}`
  if (fitSince !== null) return `Day ${day}, fit to go since ${nearDate(fitSince, today)} and still here`
  if (readyFor !== null) return `Day ${day}, ready for ${stageWords(readyFor).toLowerCase()}`
  return out === null ? `Day ${day}` : `Day ${day}, ${toGo(out - today)}`
}

/** "about seven weeks to go". */
function toGo(days: number): string {
  if (days <= 0) return 'likely to go any day'
  if (days < 14) return `about ${days} ${days === 1 ? 'day' : 'days'} to go`
  return `about ${Math.round(days / 7)} weeks to go`
}

/** "Radiograph tomorrow"; what is late says since when. */
export function dueWords(slug: string, dueOn: DayNumber, today: DayNumber): string {
  return dueOn < today
    ? `${checkName(slug)} overdue since ${weekdayDate(dueOn)}`
    : `${checkName(slug)} ${nearDate(dueOn, today)}`
}

/** "Out between 3 January and 1 February, most likely about 16 January." */
export function outBetween(q10: DayNumber, median: DayNumber, q90: DayNumber): string {
  return `Out between ${longDate(q10)} and ${longDate(q90)}, most likely about ${longDate(median)}, if it lives and the plan holds.`
}

/** When a check is due: "tomorrow", "overdue since Mon 23 Nov", "when ready", "about Sat 12 Dec". */
export function dueWhen(dueOn: DayNumber | null, today: DayNumber, isLater: boolean): string {
  if (dueOn === null) return 'when it is ready'
  if (dueOn < today) return `overdue since ${weekdayDate(dueOn)}`
  return isLater ? `about ${weekdayDate(dueOn)}` : nearDate(dueOn, today)
}

/** "every 3 days, by a carer". */
export function checkRest(who: string, intervalDays: number | null): string {
  const often =
    intervalDays === null ? '' : intervalDays === 1 ? 'every day, ' : `every ${intervalDays} days, `
  return `${often}by a ${who}`
}

/** "since Tue 24 Nov, 19:27". */
export function sinceInstant(at: Date, zone: string): string {
  return `since ${dayAndClock(at, zone)}`
}

/** "Averbrook Wildlife Hospital, Ward cage 3, until Wed 25 Nov, 18:00". */
export function holdWords(
  hold: { readonly centre: string; readonly enclosure: string; readonly expiresAt: Date | null },
  zone: string,
): string {
  const until = hold.expiresAt === null ? '' : `, until ${dayAndClock(hold.expiresAt, zone)}`
  return `${hold.centre}, ${hold.enclosure}${until}`
}

/** "Ebbing 12 was to have Ward cage 3". */
export function brokenWords({
  reference,
  enclosure,
}: {
  readonly reference: string
  readonly enclosure: string
}): string {
  return `${reference} was to have ${enclosure}; no other place is kept for it yet`
}

const AGAINST = {
  stop: 'It came in although a movement stop was in force',
  reopened: 'The case was closed and is open again',
} as const

/** A fact that a plan would not have been allowed. */
export function againstWords(because: keyof typeof AGAINST): string {
  return AGAINST[because]
}

/** "leaves Fri 27 Nov, 10:00 (booked)". */
export function leavesWords(at: Date, zone: string): string {
  return `booked to leave ${dayAndClock(at, zone)}`
}

/** "Marl Cross, Wed 25 Nov, 12:03". */
export function foundWords(where: string, when: string): string {
  return where.trim() === '' ? `place not said, ${when}` : `${where}, ${when}`
}

/** "Broken wing (closed fracture); Starved or very thin (severe)". */
export function reasonsWords(reasons: readonly { readonly name: string; readonly how: string }[]): string {
  if (reasons.length === 0) return 'nothing said yet'
  return reasons.map(({ name, how }) => (how === '' ? name : `${name} (${how.toLowerCase()})`)).join('; ')
}

/** "Vet looks at it: seen by a vet, before the next stage; passed Wed 25 Nov". */
export function gateText(
  name: string,
  what: string,
  bars: 'next stage' | 'release' | null,
  doneOn: DayNumber | null,
): string {
  const head = bars === 'next stage' ? `${name}: ${what} (before the next stage)` : `${name}: ${what}`
  return doneOn === null ? head : `${head}, ${weekdayDate(doneOn)}`
}

/** The season of its release, its source said in full. */
export function seasonWords(note: string): string {
  return note.replace(/\(([A-Z][A-Za-z0-9:+]*)\)$/, (_, mark: string) => `(${markWords(mark)})`)
}

/** Where it is, and when it is likely out. */
export function cardBasis(place: string, room: string | null, out: string | null): string {
  const where = room === null ? place : `${place}, ${room}`
  const head = `${capital(where)}.`
  return out === null ? head : `${head} ${out}`
}

/** A bar on release that the law sets. */
export const LAW_BARS = 'Release is barred by law without a licence of its own'

/** "Blackbird, in there since Tue 24 Nov, 09:10." */
export function firstInWords(species: string, since: Date, zone: string): string {
  return `${species}, in there since ${dayAndClock(since, zone)}.`
}

/** "Had Bracken 17 left by then? Say where it went" */
export function leftWords(reference: string): string {
  return `Had ${reference} left by then? Say where it went`
}

/** What facts that came late or were wrong leave to be decided. */
export const LATE = {
  given: 'Its place was given to others meanwhile',
  givenNext:
    'Both entries stand. The place counts as this animal’s, whoever came after it has none. Say where each of them is.',
  move: (reference: string) => `Move ${reference}`,
  lost: 'An outcome was taken back, and this ended with it',
  lostNext:
    'Its checks are owed again. The rest is not put back by itself: ask or book anew what is still wanted.',
} as const

type LostThing = {
  readonly kind: 'hold' | 'departure' | 'referral' | 'transfer' | 'drive'
  readonly what: string | null
  readonly at: Date | null
}

/** "The place kept in Averbrook, Ward cage 3, for Wed 25 Nov, 18:00". */
export function lostWords({ kind, what, at }: LostThing, zone: string): string {
  const when = at === null ? '' : dayAndClock(at, zone)
  switch (kind) {
    case 'hold':
      return `The place kept in ${what ?? ''}${when && `, for ${when}`}`
    case 'departure':
      return `Booked to leave ${when}`
    case 'referral':
      return `The search for a vet: ${what ?? ''}`
    case 'transfer':
      return `The move to ${what ?? ''}${when && `, for ${when}`}`
    case 'drive':
      return `The drive to ${what ?? ''}`
  }
}
