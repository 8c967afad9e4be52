/**
 * What is tapped on the round and what became of it, in words.
 * Promise: a button says what will stand in the record; taking back says what stood; no word judges. Weights in grams.
 */
import type { Found } from '#lib/domain/check-result.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { Outcome, WhereNow } from '#lib/domain/outcome.ts'
import type { RoundSaid } from '#lib/domain/round-entry.ts'
import { checkName, stageWords } from './care.ts'
import { foundWords } from './check.ts'
import { clockTime, dayAndClock, shortDate } from './dates.ts'
import { outcomeWords, whereNowWords } from './outcome.ts'

export const TAP = {
  weight: 'Weight',
  grams: 'Weight in g',
  save: 'Save weight',
  stage: 'Stage',
  moved: 'Moved to',
  elsewhere: 'Another enclosure',
  inBuilding: 'In the building, in no enclosure',
  movedThere: 'Moved there',
  out: 'Out',
  outNote:
    'Other endings, notes and times stand on its card. A vet decides about euthanasia; here it is written down.',
  notThere: 'Not there',
  notThereNote: 'It stays with this centre, in no enclosure, until somebody finds it.',
  card: 'Open its card',
  onCard: 'On its card',
  takeBack: 'Take it back',
  takenBack: 'Taken back',
  free: 'Free',
  stillThere: 'still there?',
  stillThereNote: 'Longer in its stage than 19 in 20 such animals. If it is, it is as shown.',
  arrived: 'Arrived',
  isHere: 'It is here, in this place',
  isHereNote: 'Needs signal.',
  arrivedDone: 'The arrival is recorded',
  twoVersions: 'Two versions',
  twoVersionsNote:
    'Tapped on the round after somebody else had recorded otherwise. Nothing is lost until somebody looked.',
  tapIsRight: 'What was tapped is right',
  leave: 'Leave it as it stands',
  settled: 'Settled: both versions stay readable',
  somebody: 'Somebody',
} as const

/** The button of an ending. */
export function outButton(where: WhereNow): string {
  return whereNowWords(where)
}

/** "Restricted activity began". */
export function stageButton(stage: CareStage): string {
  return `${stageWords(stage)} began`
}

/** "To Pen 4". */
export function movedButton(name: string): string {
  return `To ${name}`
}

/** "Radiograph, due 27 Nov". */
export function checkLine(slug: string, dueOn: number | null): string {
  return dueOn === null ? checkName(slug) : `${checkName(slug)}, due ${shortDate(dueOn)}`
}

/** What a check's button says: what was found, or whether it was passed. */
export function checkButton(found: Found | boolean): string {
  if (typeof found !== 'boolean') return foundWords(found)
  return found ? 'Passed' : 'Not passed'
}

/** "last 212 g, Thu 26 Nov, 07:40". */
export function lastWeight(grams: number | null, at: Date | null, zone: string): string | undefined {
  return grams === null || at === null ? undefined : `last ${grams} g, ${dayAndClock(at, zone)}`
}

export type SaidOf = {
  readonly said: RoundSaid
  readonly reference: string | null
  readonly names: {
    readonly enclosure: string | null
    readonly check: string | null
    readonly stage: CareStage | null
    readonly keptAgain?: readonly string[]
    readonly lost?: readonly string[]
  }
}

/** "Weight 212 g", "Radiograph passed", "Moved to Pen 4". */
export function saidWords({ said, names }: SaidOf): string {
  switch (said.kind) {
    case 'counted':
      return 'Counted as shown'
    case 'weight':
      return `Weight ${said.grams} g`
    case 'check':
      return `${names.check === null ? 'Check' : checkName(names.check)}: ${checkButton(said.found ?? said.passed === true).toLowerCase()}`
    case 'stage':
      return names.stage === null ? 'Next stage began' : stageButton(names.stage)
    case 'moved':
      return names.enclosure === null ? 'Moved into the building' : `Moved to ${names.enclosure}`
    case 'out':
      return whereNowWords(said.whereNow)
    case 'not-there':
      return 'Not there at the round'
    case 'undo':
      return [TAP.takenBack, ...placesWords(names)].join('. ')
  }
}

/** "Marram 13: weight 212 g". */
export function tappedWords(tapped: SaidOf): string {
  const words = saidWords(tapped)
  if (tapped.reference === null) return words
  return `${tapped.reference}: ${words.charAt(0).toLowerCase()}${words.slice(1)}`
}

/** What a tap answers: recorded, waiting for a person, or taken back. */
export function doneWords(tapped: SaidOf & { readonly state: string }): string {
  if (tapped.state === 'waits')
    return `${tappedWords(tapped)}. Somebody recorded otherwise meanwhile: both versions wait above`
  return tappedWords(tapped)
}

/** "Taken back: Marram 13: weight 212 g. Its place in Pen 4 is kept again". */
export function takenBackWords(undone: SaidOf, { names }: SaidOf): string {
  const words = tappedWords(undone)
  const what = undone.reference === null ? words.charAt(0).toLowerCase() + words.slice(1) : words
  return [`${TAP.takenBack}: ${what}`, ...placesWords(names)].join('. ')
}

/** What became of places that an ending gave up. */
function placesWords({ keptAgain = [], lost = [] }: SaidOf['names']): string[] {
  return [
    ...(keptAgain.length === 0 ? [] : [`Its place in ${keptAgain.join(', ')} is kept again`]),
    ...(lost.length === 0
      ? []
      : [`The place in ${lost.join(', ')} could not be kept again: keep another from its card`]),
  ]
}

type Who = { readonly by: string | null; readonly at: Date | null }

/** "Ada at 10:04: moved to Pen 4". */
export function tappedBy(tapped: SaidOf, { by, at }: Who, zone: string): string {
  return `${whoAndWhen({ by, at }, zone)}: ${saidWords(tapped)}`
}

function whoAndWhen({ by, at }: Who, zone: string): string {
  return `${by ?? TAP.somebody}${at === null ? '' : `, ${clockTime(at, zone)}`}`
}

export type MeanwhileIs = Who & {
  readonly enclosure: string | null
  readonly centre: string | null
  readonly outcome: Outcome | null
  readonly stage: CareStage | null
  readonly passed: boolean | null
  readonly found: Found | null
}

/** "Bo, 10:10: in Pen 7". */
export function meanwhileWords(now: MeanwhileIs, zone: string): string {
  return `${whoAndWhen(now, zone)}: ${standsWords(now)}`
}

function standsWords({ enclosure, centre, outcome, stage, passed, found }: MeanwhileIs): string {
  if (passed !== null) return checkButton(found ?? passed).toLowerCase()
  if (stage !== null) return stageButton(stage)
  if (outcome !== null) return outcomeWords(outcome)
  if (enclosure !== null) return `in ${enclosure}`
  return centre === null ? 'not at a centre' : `in the building, ${centre}`
}

/** Rules that can refuse a tap. */
export const ROUND_RULES = {
  'round-undone-already': {
    say: 'This was taken back already',
    next: 'Look at what it says now.',
  },
  'round-settled-already': {
    say: 'Somebody settled this a moment ago',
    next: 'Look at what it says now.',
  },
  'seen-otherwise': {
    say: 'Somebody recorded otherwise meanwhile',
    next: 'Both versions wait at the top of the round.',
  },
} as const
