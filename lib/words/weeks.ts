/**
 * What Weeks ahead says: the answer, what the forecast rests on, who needs the scarce places, what is not counted.
 * Promise: a chance stands with its day and with what it is a chance of; what is expected says "about". A place is one
 * enclosure here, and the pages say so. Chances from 0 to 1, days of the network's calendar.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { type HousingType, isOrderedByFlight } from '#lib/domain/housing.ts'
import { capital } from './capital.ts'
import { chanceWord, perCent } from './chance.ts'
import { dateSpan, longDate, weekdayDate } from './dates.ts'

export const WEEKS = {
  title: 'Weeks ahead',
  everywhere: 'Everywhere',
  everywhereNote: 'The same picture for each centre and housing.',
  fan: 'Enclosures and animals',
  fanNoun: 'enclosures wanted',
  placeIsEnclosure:
    'A place here is one enclosure: animals that may share one count once. Free re-housing within the centre is assumed, so the chance of being short is at least this.',
  pastNote: 'Steps: enclosures in use each night of the past four weeks.',
  readyNote: 'An animal that is ready counts where it waits to go.',
  days: 'How far ahead',
  housing: 'Housing here',
  shut: 'Shut',
  sizes: 'By size',
  sizesNote: 'Small animals may live in larger enclosures, never the other way round.',
  through: 'Through the day',
  throughNote: 'In at last midnight plus the arrivals of the day: some come and go between two midnights.',
  tight: 'Tight days',
  tightNote: 'The figure is the chance, in per cent, of being short that day. Boxed days are tight.',
  who: 'Who needs them',
  ease: 'What would ease it',
  easeNote:
    'Each on its own, computed again with the same forecast. Whether an animal is fit to travel is for its carers.',
  inAll: 'Short in all',
  inAllNote: 'One animal one day without a proper place; one enclosure where animals share.',
  notIn: 'In no forecast',
  notInNote: 'Named, so that nobody is forgotten.',
  classes: 'All classes, in figures',
  asTable: 'As a table, class by class',
  csv: 'The table as CSV',
  chooseAnother: 'Choose another',
  everyPlanned: 'Every animal in care has a plan',
  otherHousing: 'Or choose other housing here, above.',
} as const

export const WEEKS_HEADS = {
  centre: 'Centre',
  housing: 'Housing',
  date: 'Date',
  day: 'Day',
  tonight: 'Enclosures tonight',
  worstDay: 'Worst day',
  worst: 'Worst chance of being short',
  tight: 'Tight days',
  short: 'Place-days short',
  size: 'Size',
  animal: 'Animal',
  nowIn: 'Now in',
  ahead: 'Next eight weeks',
  needs: 'Needs it',
  chance: 'Chance that day',
  change: 'If you',
  shortHere: 'Short in this class',
  inAll: 'In all classes, change',
  asks: 'What it asks of you',
  midnight: 'At midnight, middle',
  through: 'Through the day, middle',
  midnightShort: 'Short at midnight',
  throughShort: 'Short through the day',
} as const

export const WEEKS_CSV = {
  date: 'date',
  centre: 'centre',
  housing: 'housing',
  enclosures: 'enclosures',
  mean: 'enclosures wanted, mean',
  p10: 'wanted, 1 day in 10 below',
  p25: 'wanted, 1 day in 4 below',
  p50: 'wanted, middle',
  p75: 'wanted, 1 day in 4 above',
  p90: 'wanted, 1 day in 10 above',
  chance: 'chance of being short',
  short: 'enclosures short, mean',
  tonight: 'enclosures tonight',
  worstDay: 'worst day',
  worstChance: 'worst chance of being short',
  tightDays: 'tight days',
  placeDays: 'place-days short',
} as const

const PLURAL: Readonly<Record<HousingType, string>> = {
  'intensive-care': 'intensive care',
  isolation: 'isolation',
  'hospital-cage': 'hospital cages',
  'indoor-pen': 'indoor pens',
  'sheltered-aviary': 'sheltered aviaries',
  'flight-aviary': 'flight aviaries',
  'pool-pen': 'pool pens',
  'outdoor-pen': 'outdoor pens',
}

/** "flight aviaries". */
export function housingPlural(type: HousingType): string {
  return PLURAL[type]
}

/** "Flight aviaries". */
export function housingHead(type: HousingType): string {
  return capital(PLURAL[type])
}

/** "47 % chance of being short; room for all is uncertain". */
export function shortAndRoom(chance: number): string {
  return `${perCent(chance)} chance of being short; room for all is ${chanceWord(1 - chance)}`
}

/** The network in one sentence: the tightest class, its worst day, chance and word. */
export function tightestSentence(tightest: {
  readonly centre: string
  readonly housing: HousingType
  readonly day: DayNumber
  readonly chance: number
  readonly tightDays: number
  readonly lastDay: DayNumber
}): string {
  const { centre, housing, day, chance, tightDays, lastDay } = tightest
  const where = `${PLURAL[housing]} at ${centre}`
  if (tightDays === 0) {
    return `No day is tight until ${longDate(lastDay)}. Fullest: ${where} on ${weekdayDate(day)}, ${shortAndRoom(chance)}`
  }
  return `Tightest: ${where}. On ${weekdayDate(day)} a ${shortAndRoom(chance)}`
}

/** One class in one sentence. */
export function classSentence(one: {
  readonly tight: readonly DayNumber[]
  readonly worst: { readonly day: DayNumber; readonly chance: number }
  readonly lastDay: DayNumber
}): string {
  const { tight, worst, lastDay } = one
  const [first] = tight
  const last = tight.at(-1)
  if (first === undefined || last === undefined) {
    return worst.chance === 0
      ? `Room on every day until ${longDate(lastDay)}`
      : `No tight day until ${longDate(lastDay)}. The fullest is ${weekdayDate(worst.day)}: ${shortAndRoom(worst.chance)}`
  }
  if (tight.length === 1) return `1 tight day, ${weekdayDate(first)}: ${shortAndRoom(worst.chance)}`
  const isRun = last - first === tight.length - 1
  const when = isRun ? dateSpan(first, last) : `between ${dateSpan(first, last).replace(' to ', ' and ')}`
  return `${tight.length} tight days, ${when}. The worst is ${weekdayDate(worst.day)}: ${shortAndRoom(worst.chance)}`
}

/** Instead of a calendar in which nothing would be written. */
export function quietWords(from: number, lastDay: DayNumber): string {
  return `No day until ${longDate(lastDay)} reaches ${perCent(from)}.`
}

/** From which chance a day is tight. */
export function tightMeans(tightFrom: number): string {
  return `A day is tight when the chance of being short is ${perCent(tightFrom)} or more, by the network's policy.`
}

/** What the forecast was made from, and when. */
export function madeWords(made: {
  readonly at: string
  readonly revision: number
  readonly horizonDays: number
  readonly learning: number | null
}): string {
  return `Forecast made ${made.at} at revision ${made.revision}, ${made.horizonDays} days ahead, ${fromWords(made.learning)}.`
}

function fromWords(learning: number | null): string {
  return learning === null
    ? "from the care plans' own estimates and each centre's usual year; nothing is learned from records yet"
    : `from what your records say of stays and arrivals, learned in run ${learning}`
}

/** How old the centre's count is, and what that does to its forecast. */
export function countWords(counted: string | null, daysAgo: number): string {
  if (counted === null) return 'Never counted here: ring first.'
  if (daysAgo < 1) return `Counted ${counted}.`
  return `Counted ${counted}, ${daysAgo === 1 ? 'a day' : `${daysAgo} days`} ago: ring first; the forecast is wider for it.`
}

/** "14 days". */
export function daysWords(days: number): string {
  return `${days} days`
}

/** What the exact figure can't say where one company needs several sizes. */
export function bracketWords(lower: number, upper: number): string {
  return `Animals of one company need enclosures of several sizes, so the worst day's chance lies between ${perCent(lower)} and ${perCent(upper)}; the pictures show the upper end.`
}

/** "77.61 place-days short, expected within 180 days, over all classes". */
export function inAllSentence(placeDays: number, horizonDays: number, isNetwork: boolean): string {
  const of = isNetwork ? 'over all classes' : 'over all classes of your centres'
  return `${placeDays.toFixed(2)} place-days short, expected within ${horizonDays} days, ${of}.`
}

/** "47.53 of them in this class". */
export function ofThemSentence(placeDays: number): string {
  return `${placeDays.toFixed(2)} of them in this class.`
}

/** "rank 5", "10 m of flight". */
export function sizeWords(size: number, housing: HousingType): string {
  return isOrderedByFlight(housing) ? `${size} m of flight or longer` : `size ${size} or larger`
}

/** The second count against the first, in one sentence. */
export function throughSentence(midnight: number, through: number, day: DayNumber): string {
  return `Through the day the worst is ${weekdayDate(day)}, ${perCent(through)} chance of being short; at midnight that day ${perCent(midnight)}.`
}

/** Animals that no forecast holds. */
export function unplannedSentence(count: number): string {
  if (count === 0) return WEEKS.everyPlanned
  return count === 1
    ? '1 animal has no plan yet and is in no forecast'
    : `${count} animals have no plan yet and are in no forecast`
}

/** Stages that no class can show, since no centre has such housing. */
export function unhousedSentence(count: number): string {
  return count === 1
    ? '1 animal needs housing that no centre has; those stages are in no class'
    : `${count} animals need housing that no centre has; those stages are in no class`
}

/** "Lanternhay has no pool pens". */
export function noSuchHousing(centre: string, housing: HousingType): string {
  return `${centre} has no ${PLURAL[housing]}`
}

/** Where such housing is, or that there is none at all. */
export function elsewhereSentence(housing: HousingType, isSomewhere: boolean): string {
  return isSomewhere
    ? `Other centres have ${PLURAL[housing]}`
    : `No centre of the network has ${PLURAL[housing]}`
}

/** What will come once there is something to forecast. */
export const NOTHING_SET_UP = {
  sentence: 'No enclosure is set up yet',
  coming: 'As soon as centres have enclosures, each class has its weeks here.',
} as const
