/**
 * What a stay ribbon says: its sentence, its labels, its table.
 * Promise: whoever cannot see the picture gets the same stages, places, dates and chances in one sentence. Dates of
 * what is expected carry "about"; chances are of a proper place, if the animal lives to need it.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import { chanceWord, perCentSpoken } from './chance.ts'
import { dateSpan, longDate, shortDate, weekdayDate } from './dates.ts'

export const RIBBON_WORDS = {
  release: 'release',
  past: 'past',
  today: 'today',
  howToRead: 'Taller band, more room. Slope, when it may end. Hatched hole, a proper place may be missing.',
  ifItLives: 'Chances are of a proper place, if the animal lives to need it.',
  stage: 'Stage',
  place: 'Place',
  likelyEnd: 'Likely end',
  eightInTen: '8 in 10 end between',
  chance: 'Chance of a place',
  checks: 'Checks',
  when: 'When',
  what: 'What',
  how: 'State',
} as const

export type CheckKind = 'planned' | 'done' | 'due' | 'late'
const CHECK_WORDS: Readonly<Record<CheckKind, string>> = {
  planned: 'planned',
  done: 'done',
  due: 'due',
  late: 'overdue',
}

/** "overdue". */
export function checkState(kind: CheckKind): string {
  return CHECK_WORDS[kind]
}

/** "restricted" for "restricted activity". */
export function shortStage(stage: CareStage): string {
  return stage.split(' ')[0] ?? stage
}

/** "about 1 Feb"; what has happened needs no "about". */
export function aboutDate(day: DayNumber, isPast = false): string {
  return isPast ? shortDate(day) : `about ${shortDate(day)}`
}

/** "3 Jan to 1 Feb", or the day itself for what has happened. */
export function eightInTen(from: DayNumber, until: DayNumber): string {
  return dateSpan(from, until)
}

/** "Long Dune, 64 km on". */
export function moveWords(centre: string, place: string | undefined, km: number | undefined): string {
  const where = place === undefined ? centre : `${centre}: ${place}`
  return km === undefined ? where : `${where}, ${Math.round(km)} km on`
}

/** "Weakest: unlimited activity, 79 %, likely". */
export function weakestWords(stage: CareStage, chance: number): string {
  return `Weakest: ${stage}, ${perCentSpoken(chance)}, ${chanceWord(chance)}`
}

/** "release about 1 Feb". */
export function endWords(endWord: string, day: DayNumber, isPast: boolean): string {
  return `${endWord} ${aboutDate(day, isPast)}`
}

/** "radiograph, overdue since Thu 26 Nov". */
export function checkWords(text: string, day: DayNumber, kind: CheckKind): string {
  if (kind === 'late') return `${text}, overdue since ${weekdayDate(day)}`
  return `${text} ${shortDate(day)}`
}

export type SpokenStage = {
  readonly stage: CareStage
  readonly centre: string
  readonly until: DayNumber
  readonly chance?: number | undefined
  readonly isPast: boolean
}

/** The whole stay in one sentence. */
export function ribbonSentence(stages: readonly SpokenStage[], today: DayNumber): string {
  const first = stages[0]
  const last = stages.at(-1)
  if (first === undefined || last === undefined) return 'No stay is planned.'
  let from = today
  let centre = first.centre
  const parts: string[] = [`${first.centre}`]
  for (const stage of stages) {
    if (stage.centre !== centre) {
      parts.push(`move to ${stage.centre} about ${longDate(from)}`)
      centre = stage.centre
    }
    parts.push(spokenStage(stage, stage === last))
    from = stage.until
  }
  parts.push(last.isPast ? `out ${longDate(last.until)}` : `out about ${longDate(last.until)}`)
  return `${parts.join('; ').replace('; ', ', ')}.`
}

function spokenStage({ stage, until, chance, isPast }: SpokenStage, isLast: boolean): string {
  if (isPast) return `${stage} until ${longDate(until)}`
  const words = chance === undefined ? '' : `, ${perCentSpoken(chance)}, ${chanceWord(chance)}`
  return isLast ? `${stage}${words}` : `${stage} until about ${longDate(until)}${words}`
}
