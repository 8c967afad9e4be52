/**
 * The page of a link to an ask, its mail, and the same facts as text to send or to read aloud.
 * Promise: one case, nothing of the finder; what was not recorded says so, since a vet decides by what is missing too.
 * Facts follow the fields of a referral letter (common practice, no source). Days and times by the network's clock.
 */
import { dayOfInstant } from '#lib/domain/day.ts'
import { dayAndClock, longDate } from './dates.ts'

export const ASK_PAGE = {
  title: 'An ask',
  yes: 'Yes',
  no: 'No',
  yesCentre: 'Yes, we take it',
  noCentre: 'No, not now',
  yesVet: 'Yes, at this time',
  noVet: 'No',
  answerHead: 'Your answer',
  answerNote: 'One answer counts. You need no account.',
  by: 'Your name',
  reason: 'Why not',
  reasonHint: 'Only if you like; it helps to ask the right one next',
  comesAt: 'When you see it',
  facts: 'The animal',
  factsNote: 'What is not known says so.',
  afterwards: 'Afterwards',
  question: 'What is asked',
  gap: 'not recorded',
  byPhone: 'Or ring',
  overTitle: 'Nothing is asked here any more',
  over: 'This ask is closed',
  overNext: 'There is nothing to do. Should you have room all the same, ring the line.',
  ranOut: 'The time for this answer is over',
  home: 'Where it goes afterwards',
  offers: 'What is offered there',
  comesAtHint: 'A yes needs a day and a time',
  thanks: 'Thank you. It is written down',
  unknown: 'This link leads nowhere',
  unknownNext: 'It may have been copied in part. Ring the line of whoever sent it.',
} as const

export const ASK_MAIL = { subject: 'A casualty needs an answer' } as const

type Mailed = { readonly link: string; readonly network: string; readonly phone: string }

/** The mail that goes to somebody who answers for a centre. */
export function askMailBody({ link, network, phone }: Mailed): string {
  return [
    `${network} asks you to take a casualty.`,
    '',
    'The page below shows what is known and takes your answer, yes or no:',
    link,
    '',
    `Or ring ${phone}. If nobody answers, the next one is asked.`,
  ].join('\n')
}

export type CaseFact = { readonly term: string; readonly value: string | null }

type Case = {
  readonly reference: string
  readonly species: string
  readonly scientificName: string | null
  readonly temperament: string
  readonly age: string
  readonly animals: number
  readonly arrivedAt: Date
  readonly isDiseaseSuspect: boolean
  readonly leaveWords: string | null
  readonly findings: readonly { readonly name: string; readonly severity: string; readonly notedAt: Date }[]
  readonly weights: readonly { readonly grams: number; readonly at: Date }[]
  readonly stages: readonly {
    readonly stage: string
    readonly housing: string
    readonly centre: string | null
  }[]
  readonly keeper: string | null
  readonly heldAt: string | null
}

const AGE: Readonly<Record<string, string>> = { adult: 'adult', young: 'young' }

/** "Kestrel, adult". */
export function animalWords({ species, age, animals }: Pick<Case, 'species' | 'age' | 'animals'>): string {
  const many = animals > 1 ? `${animals} of ` : ''
  return `${many}${species}${AGE[age] === undefined ? '' : `, ${AGE[age]}`}`
}

/** The facts a centre decides on. */
export function centreFacts(one: Case, zone: string): CaseFact[] {
  return [
    { term: 'Animal', value: animalWords(one) },
    { term: 'What is wrong', value: findingsWords(one) },
    { term: 'Needs first', value: stageWords(one) },
    { term: 'Place kept for it', value: one.heldAt },
    { term: 'Call answered', value: dayAndClock(one.arrivedAt, zone) },
    { term: 'Disease', value: diseaseWords(one) },
    { term: 'Handling', value: blank(one.temperament) },
  ]
}

/** The facts a vet decides on, gaps among them. */
export function vetFacts(one: Case, zone: string): CaseFact[] {
  const first = one.weights[0]
  const last = one.weights.at(-1)
  const grams = ({ grams: g, at }: { readonly grams: number; readonly at: Date }) =>
    `${g} g on ${longDate(dayOfInstant(at, zone))}`
  const name = one.scientificName === null ? one.species : `${one.species} (${one.scientificName})`
  return [
    { term: 'Species', value: name },
    { term: 'Age', value: AGE[one.age] ?? null },
    { term: 'Sex, ring or chip', value: null },
    { term: 'In care since', value: longDate(dayOfInstant(one.arrivedAt, zone)) },
    { term: 'Weight at first', value: first === undefined ? null : grams(first) },
    { term: 'Weight last', value: last === undefined || last === first ? null : grams(last) },
    { term: 'Body condition', value: null },
    { term: 'Findings', value: findingsWords(one) },
    { term: 'Bone, side, third, distance to the joint', value: null },
    { term: 'Skin and nerves below', value: null },
    { term: 'Both eyes', value: null },
    { term: 'Pictures', value: null },
    { term: 'Blood: packed cells, protein, lead', value: null },
    { term: 'Treated so far', value: null },
    { term: 'Last food', value: null },
    { term: 'Handling', value: blank(one.temperament) },
    { term: 'Disease', value: diseaseWords(one) },
    { term: 'Kept now', value: keptWords(one) },
  ]
}

function findingsWords({ findings }: Case): string | null {
  const words = findings.map(({ name, severity }) => (severity === 'any' ? name : `${name}, ${severity}`))
  return words.length === 0 ? null : words.join('; ')
}

function stageWords({ stages }: Case): string | null {
  const [first] = stages
  return first === undefined ? null : `${first.stage}: ${first.housing.replaceAll('-', ' ')}`
}

function diseaseWords({ isDiseaseSuspect, leaveWords }: Case): string {
  if (!isDiseaseSuspect) return 'no suspicion recorded'
  return leaveWords === null ? 'notifiable disease suspected' : `suspected, leave given: ${leaveWords}`
}

function keptWords({ keeper, stages }: Case): string | null {
  if (keeper === null) return null
  const who = keeper === 'finder' ? 'with its finder' : keeper === 'driver' ? 'on the road' : keeper
  const [first] = stages
  return first === undefined ? who : `${who}, ${first.stage}`
}

function blank(text: string): string | null {
  return text === '' ? null : text
}

/** The head of the page: who is asked for what. */
export function askSentence(
  network: string,
  one: Pick<Case, 'species' | 'age' | 'animals'>,
  isVet: boolean,
): string {
  const what = animalWords(one)
  return isVet
    ? `${network} asks you to see this casualty: ${what}`
    : `${network} asks you to take in: ${what}`
}

/** "Please answer by Wed 25 Nov, 23:53. Then the next one is asked." */
export function answerBy(lapsesAt: Date, zone: string): string {
  return `Answer by ${dayAndClock(lapsesAt, zone)}. After that somebody else is asked.`
}

/** What the page says once somebody answered. */
export function thanksWords(
  isYes: boolean,
  by: string | null,
  at: Date,
  comesAt: Date | null,
  zone: string,
): string {
  const who = by === null ? '' : `, ${by}`
  const when = comesAt === null ? '' : `, to be seen ${dayAndClock(comesAt, zone)}`
  return `Answered ${isYes ? 'yes' : 'no'}${when}: ${dayAndClock(at, zone)}${who}`
}

/** What a visit and the day after it ask for. */
export function vetCheckWords(
  practice: string,
  what: string,
): { readonly visit: string; readonly after: string } {
  return {
    visit: [practice, what].filter(part => part !== '').join(': '),
    after: 'eats, stands, dressing dry after the vet',
  }
}

type Sent = {
  readonly network: string
  readonly phone: string
  readonly isVet: boolean
  readonly facts: readonly CaseFact[]
  readonly what: string | null
  readonly offers: string
  readonly home: string | null
  readonly link: string | null
}

/** The ask as text, for a message or to read aloud. */
export function askText(sent: Sent): string {
  const known = sent.facts.filter(fact => fact.value !== null).map(({ term, value }) => `${term}: ${value}`)
  const gaps = sent.facts.filter(fact => fact.value === null).map(({ term }) => term.toLowerCase())
  return [
    sent.isVet
      ? `${sent.network} asks you to see a casualty.`
      : `${sent.network} asks you to take a casualty.`,
    ...known,
    ...(gaps.length === 0 ? [] : [`Not recorded: ${gaps.join(', ')}`]),
    ...(sent.what === null ? [] : [`Asked: ${sent.what}`]),
    ...(sent.home === null ? [] : [`Afterwards it goes to ${sent.home}`]),
    ...(sent.offers === '' ? [] : [`Offered afterwards: ${sent.offers}`]),
    `To answer: ring ${sent.phone}${sent.link === null ? '' : ` or open ${sent.link}`}`,
  ].join('\n')
}
