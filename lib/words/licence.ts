/** Licences in words: whose clock runs until when, who may not hold an animal. The law is the duty of whoever holds it. */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Clock, Holder } from '#lib/domain/licence.ts'
import { weekdayDate } from './dates.ts'

export const LICENCE = {
  say: 'Say what was done about it',
  words: 'What was done',
  wordsHint: 'Such as: registered, number 1234. The clock warns no more.',
  unauthorised: 'The centre that has it holds no licence for it',
  unauthorisedKept: 'The fact stands as it was recorded.',
  holders: 'Who is authorised',
  holdersNote:
    'Places for such animals are promised only at these centres. What has happened is recorded anywhere.',
  noHolders: 'No centre is authorised yet',
  noHoldersComing: 'Until one is, no place is promised for the species below.',
  add: 'Authorise a centre',
  centre: 'Centre',
  licenceNo: 'Number or words of the licence',
  from: 'Valid from',
  until: 'Valid until',
  untilHint: 'Empty: until it is taken out',
  remove: 'Take it out',
} as const

const HOLDER: Readonly<Record<Holder, string>> = {
  'authorised person': 'an authorised person',
  vet: 'a vet',
  anyone: 'whoever has it',
}

/** "England: after 15 days ..."; a rule of elsewhere says that it does not hold here. */
export function ruleWords(rule: {
  readonly jurisdiction: string | null
  readonly meaning: string
  readonly applies: boolean
}): string {
  const where = rule.jurisdiction === null ? '' : `${rule.jurisdiction}: `
  return `${where}${rule.meaning}${rule.applies ? '' : ' (does not hold here)'}`
}

/** "day 15 for an authorised person: Wed 9 Dec, in 4 days". */
export function clockWords({ days, on, holder }: Clock, today: DayNumber): string {
  return `day ${days} for ${HOLDER[holder]}: ${weekdayDate(on)}, ${leftWords(on, today)}`
}

/** "in 4 days", "runs out tomorrow", "run out". */
export function leftWords(on: DayNumber, today: DayNumber): string {
  const left = on - today
  if (left < 0) return 'run out'
  if (left === 0) return 'runs out today'
  return left === 1 ? 'runs out tomorrow' : `in ${left} days`
}

export function licenceDone(words: string): string {
  return `Done: ${words}`
}
