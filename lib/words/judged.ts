/**
 * Whether the forecast came true, for people: how much of what came lay where most of it should, and who was nearer.
 * Promise: every share comes with its range, or says that it has none; a guess that would have done better is named plainly.
 * Shares from 0 to 1, horizons in days.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import { capital } from './capital.ts'
import { perCent } from './chance.ts'
import { clockTime, dateWithYear, dayAndClock } from './dates.ts'

export const JUDGED = {
  title: 'Were the forecasts right?',
  back: 'What your records say of each stage',
  none: 'The forecasts have not been judged yet',
  noneComing:
    'Each forecast of the past is made again from what was known on its day, every 14 days, and compared with what came. It takes a while and runs beside everything else.',
  tooFew: 'Your records are too short to judge the forecasts',
  running: 'The forecasts are being judged',
  soFar: 'The figures are of the days judged so far; they may still change.',
  onlyThose: 'The figures are of those days alone.',
  missing: 'What is missing',
  notYet: 'The first figures stand here once a day is judged.',
  look: 'Look again',
  cancel: 'Cancel the judging',
  judge: 'Judge the forecasts',
  again: 'Judge them again',
  figures: 'How near they were',
  figuresNote: 'Enclosures wanted in the whole network, by type and size of housing.',
  after: 'How long after',
  held: 'In the middle, where 80\u00a0% should be',
  off: 'Off by, in enclosures',
  nearer: 'Who was nearer',
  cannotTell: 'Too few days are judged to say whether a guess would have done as well.',
  cannotTellShort: 'Too few days to tell',
  offMeans:
    'Off by: how far what was said lay from what came, on average; a forecast that spreads its chances wide counts as far off, too. 0 is exactly right.',
  thanMeans:
    'Nearer and farther are measured against guesses that anybody could make without a forecast. In brackets: 19 chances in 20.',
  noRange: 'Where no range stands, too few days are judged to say how sure the figure is.',
  more: 'How the doubt was, and what is judged',
  scale: 'Where what came lay on the scale of its forecast',
  scaleMeans:
    'Each count that came is put into a tenth of what its forecast said: the first tenth means less came than nearly all that was said, the last tenth more. Right doubt fills every tenth alike (the dashed line). High ends: too sure. A high middle: too unsure. High on the right: more came than was said.',
  scaleCaption: 'Share of what came, by tenth of its forecast',
  tenth: 'Tenth',
  judged: 'What is judged',
  judgedWords:
    'How many enclosures are wanted in the whole network, by type and size of housing: 1, 7, 28 and 90 days after every 14th day, each forecast made again from what was known on its day.',
  notJudged: 'What is not',
  notJudgedWords:
    "Housing and plans are today's, since those of the past are not kept. Whoever was sent elsewhere left no stay to compare with. Single centres are not judged here.",
  days: 'Days judged',
  pairs: 'Counts compared',
  stays: 'Single stays',
  since: 'Records since',
  model: 'Model',
  made: 'Made from',
} as const

/** "1 day later", "28 days later". */
export function laterWords(days: number): string {
  return days === 1 ? '1 day later' : `${days} days later`
}

type Range = { readonly low: number; readonly high: number }

/** The one sentence: "28 days later, 79 % of what came lay in the middle where 80 % should (19 chances in 20: 72 to 85 %)." */
export function heldSentence(days: number, held: number, range: Range | null): string {
  return `${heldHead(days, held, range)}.`
}

/** The same as the head of a page. */
export function heldHead(days: number, held: number, range: Range | null): string {
  const doubt =
    range === null
      ? 'too few days to say how sure that is'
      : `19 chances in 20: ${Math.round(100 * range.low)} to ${perCent(range.high)}`
  return `${capital(laterWords(days))}, ${perCent(held)} of what came lay in the middle where 80\u00a0% should (${doubt})`
}

/** The same under a head that says of what: "79 % (72 to 85 %)". */
export function heldShort(held: number, range: Range | null): string {
  return range === null
    ? perCent(held)
    : `${perCent(held)} (${Math.round(100 * range.low)} to ${perCent(range.high)})`
}

/** What anybody could have guessed. */
export type Guess = 'same as today' | 'same week last year' | 'seasonal mean'

const SPOKEN: Readonly<Record<Guess, string>> = {
  'same as today': 'the same as today',
  'same week last year': 'the same as this week last year',
  'seasonal mean': 'the usual of the season',
}

/** The head of a column: "Than the same as today". */
export function thanWords(guess: Guess): string {
  return `Than ${SPOKEN[guess]}`
}

/** "Guessing the same as today would have done better." Nothing where no guess would. */
export function betterSentence(guesses: readonly Guess[]): string {
  return guesses.length === 0 ? '' : `Guessing ${listed(guesses)} would have done better.`
}

/** "It can't be told apart from guessing the same as today." Nothing where it can be told from all. */
export function alikeSentence(guesses: readonly Guess[]): string {
  return guesses.length === 0 ? '' : `It can't be told apart from guessing ${listed(guesses)}.`
}

/** "The forecast was nearer than guessing the same as today." Nothing where it was nearer than none. */
export function beatsSentence(guesses: readonly Guess[]): string {
  return guesses.length === 0 ? '' : `The forecast was nearer than guessing ${listed(guesses)}.`
}

/** Who was nearer: a guess that did better by its name, before all else. */
export function nearerName(
  better: readonly Guess[],
  alike: readonly Guess[],
  beaten: readonly Guess[],
): string {
  if (better.length > 0) return `Guessing ${listed(better, 'conjunction')}`
  if (alike.length > 0) return `Not told apart from ${listed(alike)}`
  return beaten.length > 0 ? 'The forecast' : 'No guess could be made'
}

/** Against a guess: "29 % nearer (13 to 45 %)", "3 % farther (10 % farther to 4 % nearer)". */
export function nearerWords(nearer: number, range: Range | null): string {
  if (range === null) return sided(nearer)
  const { low, high } = range
  if (low > 0) return `${sided(nearer)} (${whole(low)} to ${share(high)})`
  if (high < 0) return `${sided(nearer)} (${whole(high)} to ${share(low)})`
  return `${sided(nearer)} (${sided(low)} to ${sided(high)})`
}

const whole = (part: number) => Math.round(100 * Math.abs(part))
const share = (part: number) => `${whole(part)}\u00a0%`
const sided = (part: number) =>
  whole(part) === 0 ? 'as near' : `${share(part)} ${part < 0 ? 'farther' : 'nearer'}`

/** Where a guess could never be made: "needs 729 days of records". */
export function needsWords(days: number): string {
  return `needs ${days} days of records`
}

/** A distance in enclosures under a head that says so: "1.3". */
export function offWords(off: number): string {
  return off.toFixed(off < 1 ? 2 : 1)
}

/** Where a horizon can't be judged yet: what is there, and what it takes. */
export function tooShortSentence(days: number, hasDays: number, needsDays: number): string {
  return `Records go back ${hasDays} days; to judge what is said of ${laterWords(days)} they must go back ${needsDays}.`
}

/** Where a horizon is judged, without knowing how sure that is. */
export function doubtTooShortSentence(days: number, hasDays: number, needsDays: number): string {
  return `Records go back ${hasDays} days; to say how sure the figures of ${laterWords(days)} are they must go back ${needsDays}.`
}

/** Where nothing was learned: which forecast is shown. */
export const UNLEARNED =
  "Nothing is learned from your records yet. Until then you see the plan's forecast, marked so on Weeks ahead."

/** "12 of 39 days judged, since 14:02". */
export function judgingWords(done: number, outOf: number, begunAt: Date, zone: string): string {
  return `${done} of ${outOf} days judged, since ${clockTime(begunAt, zone)}`
}

/** "Cancelled on Mon 30 Nov, 14:20, after 12 of 39 days; what was judged is kept". */
export function cancelledWords(done: number, outOf: number, at: Date, zone: string): string {
  const kept = done === 0 ? 'nothing was judged' : 'what was judged is kept'
  return `Cancelled on ${dayAndClock(at, zone)}, after ${done} of ${outOf} days; ${kept}`
}

/** "37 of 39, from 3 June 2025 to 2 November 2026". */
export function judgedDaysWords(
  days: number,
  outOf: number,
  span: { readonly from: DayNumber; readonly until: DayNumber },
): string {
  const from = dateWithYear(span.from)
  const when = span.from === span.until ? from : `from ${from} to ${dateWithYear(span.until)}`
  return `${days} of ${outOf}, ${when}`
}

/** "1 day later 546, 7 days later 540". */
export function pairsWords(rows: readonly { readonly horizon: number; readonly pairs: number }[]): string {
  return rows.map(({ horizon, pairs }) => `${laterWords(horizon)} ${pairs}`).join(', ')
}

/** Below this an unevenness is no longer taken for chance. */
const UNLIKELY = 0.05

/** How well the stays of single animals were foretold on their first day, by stage. */
export function staysWords(told: {
  readonly stays: number
  readonly ended: number
  readonly chance: number
  /** Of the ten parts of what was foretold, how much of the ends the emptiest and the fullest hold. */
  readonly tenths: { readonly least: number; readonly most: number }
  readonly scores: readonly { readonly days: number; readonly score: number }[]
}): string {
  const { stays, ended, chance, tenths, scores } = told
  const spread =
    chance < UNLIKELY
      ? `Their ends did not spread over what was foretold as they should: of ten parts that should hold 10\u00a0% each, the emptiest held ${perCent(tenths.least)}, the fullest ${perCent(tenths.most)}`
      : 'Their ends spread over what was foretold as they should'
  const odds = `an unevenness like theirs comes by chance in ${perCent(chance)} of such judgings`
  const off = scores.map(({ days, score }) => `${score.toFixed(3)} at ${days} days`).join(', ')
  const which = `${stays} stays in a stage, foretold on their first day, of which ${ended} ended since.`
  return `${which} ${spread} (${odds}). Off by ${off}, where 0.250 is a coin.`
}

/** "Revision 35118 of the records, seed 1, begun Mon 30 Nov, 14:02". */
export function madeFromWords(
  made: { readonly revision: number; readonly seed: number; readonly begunAt: Date },
  zone: string,
): string {
  return `Revision ${made.revision} of the records, seed ${made.seed}, begun ${dayAndClock(made.begunAt, zone)}`
}

/** "1st", "2nd" … of ten. */
export function tenthWords(tenth: number): string {
  return (
    ['First', 'Second', 'Third', 'Fourth', 'Fifth', 'Sixth', 'Seventh', 'Eighth', 'Ninth', 'Last'][tenth] ??
    ''
  )
}

/** A picture for those who don't see it: "28 days later: 12 % in the first tenth, 9 % in the last, 10 % would be right". */
export function scaleSentence(horizon: number, pit: readonly number[]): string {
  return `${capital(laterWords(horizon))}: ${perCent(pit[0] ?? 0)} in the first tenth, ${perCent(pit.at(-1) ?? 0)} in the last; 10\u00a0% would be right`
}

function listed(guesses: readonly Guess[], type: 'disjunction' | 'conjunction' = 'disjunction'): string {
  return new Intl.ListFormat('en-GB', { type }).format(guesses.map(guess => SPOKEN[guess]))
}
