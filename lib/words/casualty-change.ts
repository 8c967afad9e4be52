/**
 * The forms of an animal's card: what each records, its fields, and why a place may not suit.
 * Promise: no form asks whether somebody is sure; a reason refuses nothing, it is kept. Vets' decisions are named so.
 */
import type { CareStage } from '#lib/domain/housing.ts'
import type { InTheWay, PlaceChoice } from '#lib/domain/place-choice.ts'
import type { Precision } from '#lib/domain/precision.ts'
import { housingWords, misfitWords, stageWords } from './care.ts'
import { dayAndClock } from './dates.ts'

export const CHANGE = {
  recordIt: 'Record it',
  record: 'Record',
  arrived: 'It has arrived',
  move: 'Move it',
  enclosure: 'Enclosure',
  choose: 'Choose',
  days: 'days',
  itsKind: 'animals of its kind',
  inBuilding: 'In the building, in no enclosure',
  otherCentre: 'At another centre',
  override: 'If it does not fit: why it goes there all the same',
  overrideHint: 'It is recorded either way. With a reason it joins who is in.',
  howMany: 'How many of those in this place',
  animals: 'animals',
  handOver: 'With somebody else',
  handOverTo: 'Who has it',
  finder: 'Its finder',
  practices: 'Practices',
  drivers: 'Drivers',
  booked: 'Book when it leaves',
  leavesAt: 'Leaves',
  leavesHint: 'From then on its place can be promised. Empty takes the booking back.',
  stage: 'Stage that began',
  revise: 'Revise expectations',
  because: 'Why',
  becauseHint: 'Such as: no union at the radiograph',
  median: 'Usual time',
  p90: 'Nine of ten within',
  outcome: 'Record the outcome',
  weigh: 'Weigh',
  grams: 'Weight',
  gramsUnit: 'g',
  note: 'Add a note',
  noteWords: 'Note',
  identify: 'Say what it is',
  species: 'Animal',
  age: 'Age',
  when: 'When',
  whenHint: 'Empty means now. An earlier time is recorded as it was.',
  precision: 'How well the time is known',
  yes: 'Passed',
  no: 'Not passed',
  result: 'What was seen',
} as const

/** What the record of the animal that stands for it says. */
export const NOT_TOLD_APART = 'One of the batch; which one is not known'

/** "Move some of the 6". */
export function someOfWords(count: number): string {
  return `Move some of the ${count}`
}

/** "One of the 6 died, not known which". */
export function oneOfWords(count: number): string {
  return `One of the ${count} died, not known which`
}

const PRECISION: Readonly<Record<Precision, string>> = {
  minute: 'To the minute',
  hour: 'Within that hour',
  day: 'Some time that day',
  week: 'Some time in the three days around it',
}

export function precisionWords(precision: Precision): string {
  return PRECISION[precision]
}

const AGE = { adult: 'Adult', young: 'Young', unknown: 'Not known' } as const

export function ageChoice(age: keyof typeof AGE): string {
  return AGE[age]
}

/** "Ready to leave restricted activity". */
export function readyTo(stage: CareStage, isLast: boolean): string {
  return isLast ? 'Fit to go' : `Ready to leave ${stageWords(stage).toLowerCase()}`
}

/** "Limited activity began". */
export function wentOnTo(stage: CareStage): string {
  return `${stageWords(stage)} began`
}

/** "Restricted activity, counted from its first day". */
export function reviseLegend(stage: CareStage, isNow: boolean): string {
  return isNow ? `${stageWords(stage)}, in all from its first day` : stageWords(stage)
}

const GROUP: Readonly<Record<PlaceChoice['state'], string>> = {
  free: 'Fits and is free',
  'in use': 'Fits, but is in use',
  'does not fit': 'Does not fit',
}

/** How a list of enclosures is parted. */
export function placeGroup(state: PlaceChoice['state']): string {
  return GROUP[state]
}

/** "Ward cage 8, Bird ward: 2 free"; otherwise every reason. */
export function placeChoiceWords(
  choice: PlaceChoice,
  zone: string,
  companyName: (slug: string) => string,
): string {
  const head = `${choice.name}, ${choice.room}`
  if (choice.state === 'free') {
    return `${head}, ${housingWords(choice.housing)}: ${choice.free === 1 ? 'free' : `${choice.free} free`}`
  }
  const reasons = [
    ...choice.misfits.map(misfit => misfitWords(misfit, companyName)),
    ...choice.inTheWay.map(one => inTheWayWords(one, zone)),
  ]
  return reasons.length === 0 ? `${head}: full` : `${head}: ${reasons.join('; ')}`
}

function inTheWayWords({ kind, references, until }: InTheWay, zone: string): string {
  const who = references.length === 0 ? 'others' : references.slice(0, 3).join(', ')
  const end = until === null ? '' : ` until ${dayAndClock(until, zone)}`
  switch (kind) {
    case 'closed':
      return `closed${end || ' until further notice'}`
    case 'drying':
      return `drying${end}`
    case 'company':
      return `${who} in it, may not share`
    case 'full':
      return `full with ${who}`
    case 'kept':
      return `kept for ${who}${end}`
    case 'room':
      return `${who} in the same room, predators and prey apart`
  }
}

/** For which stage the places were judged. */
export function judgedFor(stage: CareStage | null, centre: string | null): string {
  if (centre === null) return 'Choose a centre first.'
  return stage === null
    ? `Enclosures of ${centre}; without a plan nobody can say which fit.`
    : `Enclosures of ${centre}, judged for ${stageWords(stage).toLowerCase()}.`
}

/** "3 lines are open before its release". */
export function openBefore(count: number): string {
  return count === 1
    ? '1 line is open before its release. A fact is recorded all the same.'
    : `${count} lines are open before its release. A fact is recorded all the same.`
}

const DONE: Readonly<Record<string, string>> = {
  arrived: 'Arrival recorded',
  moved: 'Recorded; the newest entry below says where it is now',
  ready: 'Recorded as ready',
  went: 'The stage began',
  check: 'Check recorded',
  said: "The vet's word stands below the stay",
  operated: 'Operation recorded; what is counted from it has its new day',
  weighed: 'Weight recorded',
  licence: 'Kept what was done about the licence',
  waits: 'Kept what it waits for',
  sure: 'Weight called right',
  overwintered: 'Overwintering planned; the old plan stays readable below',
  note: 'Note kept',
  picture: 'The picture stands below',
  revised: 'Expectations revised; the old plan stays readable below',
  named: 'Name recorded; every rule about its company was asked again',
  outcome: 'Outcome recorded',
  joined: 'Counted together from now on',
  parted: 'Counted apart from now on',
  told: 'Told from the others from now on',
  undone: 'Taken back',
  booked: 'Booked',
  unbooked: 'Booking taken back',
  'given-back': 'The place is free for others again',
}

/** What was just done, after the page came back; nothing for words that are not ours. */
export function doneWords(key: string | undefined): string | undefined {
  return key !== undefined && Object.hasOwn(DONE, key) ? DONE[key] : undefined
}

/** Rules that can refuse what a card's form sends. */
export const CARD_RULES = {
  'not-one-of-several': {
    say: 'There are no two of this batch in this place any more',
    next: 'Record the outcome of the one that is left.',
  },
  'not-so-many-beside': {
    say: 'There are not so many of them in this place',
    next: 'Give a smaller number. Those elsewhere are moved from one of their cards. Everything typed is kept.',
  },
  'which-animal': {
    say: 'Which animal is it?',
    next: 'Choose one, or what it looks like. Everything typed is kept.',
  },
  'not-happened-yet': {
    say: 'This time is still to come',
    next: 'Give the time at which it happened, or leave it empty for now.',
  },
  'no-such-outcome': {
    say: 'These two answers do not go together',
    next: 'Change one of the two.',
  },
  'still-in-care': {
    say: 'It is still in care, so there is no outcome yet',
    next: 'Record where it is instead.',
  },
  'stage-not-in-the-plan': {
    say: 'This stage is not in its plan any more',
    next: 'Look at the plan as it is now, then choose again.',
  },
  'stage-ends-by-date': {
    say: 'This stage ends by date, so it has no length to revise',
    next: 'Leave its two numbers empty.',
  },
  'no-plan-yet': { say: 'It has no care plan yet', next: 'Say what is wrong with it first.' },
  'check-done-already': {
    say: 'Somebody recorded this check a moment ago',
    next: 'Look at what it says now.',
  },
  'nothing-revised': {
    say: 'Nothing was changed yet',
    next: 'Change at least one number. Everything typed is kept.',
  },
} as const
