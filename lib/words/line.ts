/**
 * The duty line in words: who holds it, what passes with it, and what to do when nobody does.
 */
import type { DueKind } from '#lib/domain/due.ts'
import type { LineTurn, TurnHow, Unheld } from '#lib/domain/line.ts'

export const LINE = {
  title: 'The line',
  offer: 'Hand over',
  offerNote: 'You hold the line until the next person accepts.',
  to: 'To',
  anybody: 'Whoever comes next',
  words: 'Written to the next person',
  wordsHint: 'What is not in the list: promises, moods, the weather, a door that sticks',
  offerButton: 'Offer the line',
  offered: 'Offered',
  withdraw: 'Take the offer back',
  accept: 'Accept the line',
  acceptNote: 'What is owed passes to you in the same moment.',
  takeUp: 'Take the line',
  takeUpNote: 'Calls, call-backs and asks are yours from then on.',
  takeOver: 'Take the line over',
  takeOverNote: 'When the holder can not be reached. The reason is kept with your name.',
  reason: 'Why',
  reasonHint: 'Rang three times since 07:50, no answer',
  until: 'Until',
  untilHint: 'Without a handover by then the line counts as unheld',
  stay: 'Stay longer',
  stayButton: 'Change the hour',
  passes: 'What passes',
  passesNote: 'In the order in which it is owed. On paper each has a box to tick.',
  nothingPasses: 'Nothing is open',
  nothingPassesComing: 'Open calls, call-backs, asks, holds and animals on the road stand here.',
  stays: 'Stays with others',
  staysNote: 'They promised it and do it.',
  before: 'Who held it',
  beforeNote: 'Kept as it was.',
  nobodyBefore: 'Nobody has held the line yet',
  nobodyBeforeComing: 'The first turn begins when a coordinator takes it.',
  signed: 'Handed over by, to, at',
  lineOf: 'Line',
  nobody: 'Nobody holds the line',
  done: 'done',
  owed: 'By when',
  what: 'What',
  who: 'Who',
  open: 'Open',
  holder: 'Holder',
  from: 'From',
  ended: 'Until',
  how: 'How',
  passed: 'Passed',
} as const

const KIND_HEADS: Partial<Readonly<Record<DueKind, string>>> = {
  call: 'Calls',
  'call-back': 'Call-backs',
  ask: 'Asks without an answer',
  'on-the-road': 'Animals on the road',
  hold: 'Holds that run out',
}

export function kindHead(kind: DueKind): string {
  return KIND_HEADS[kind] ?? ''
}

const HOW: Readonly<Record<TurnHow, string>> = {
  'taken-up': 'took it up',
  accepted: 'accepted it',
  'taken-over': 'took it over',
  'passed-on': 'passed on as a duty',
}

export function howWords(turn: LineTurn): string {
  return turn.reason === null ? HOW[turn.how] : `${HOW[turn.how]}: ${turn.reason}`
}

/** The answer of the page. */
export function lineSentence(said: {
  readonly unheld: Unheld | undefined
  readonly holder: string | undefined
  readonly isMine: boolean
  readonly until: string
}): string {
  const { unheld, holder = '', isMine, until } = said
  switch (unheld) {
    case undefined:
      return isMine ? `You hold the line until ${until}` : `${holder} holds the line until ${until}`
    case 'past-its-end':
      return isMine
        ? `Your turn on the line ended ${until} and nobody accepted it`
        : `Nobody holds the line: ${holder}'s turn ended ${until}`
    case 'holder-gone':
      return `Nobody holds the line: ${holder} is switched off`
    case 'nobody':
      return 'Nobody holds the line'
  }
}

const NAMED_MAX = 3

/** What to do about an unheld line, for whoever reads it. */
export function unheldTodo(
  who: 'may-hold' | 'reads' | 'visitor',
  coordinators: readonly { readonly name: string; readonly phone: string | null }[],
): string {
  if (who === 'may-hold') return 'Take it now: until then calls, call-backs and asks belong to nobody.'
  if (who === 'visitor') return 'A coordinator signs in and takes it.'
  const named = coordinators
    .slice(0, NAMED_MAX)
    .map(({ name, phone }) => (phone === null ? name : `${name}, ${phone}`))
    .join('; ')
  return named === ''
    ? 'Tell an administrator: no coordinator is switched on.'
    : `Ring a coordinator: ${named}.`
}

/** "Offered to Somella at 06:50; you hold the line until it is accepted". */
export function offeredWords(to: string | null, when: string): string {
  return `Offered to ${to ?? 'whoever comes next'} at ${when}; you hold the line until it is accepted`
}

/** "Marit Sollwyn offers you the line since 06:50". */
export function offeredYouWords(from: string, isNamed: boolean, when: string): string {
  return `${from} offers ${isNamed ? 'you' : 'whoever comes next'} the line since ${when}`
}

/** To whoever accepted a moment too late. */
export function passedWords(holder: string): string {
  return `${holder} took the line a moment ago`
}

/** In the head of each page: "Line: Marit Sollwyn". */
export function onTheLineWords(holder: string | undefined, isMine: boolean): string {
  if (holder === undefined) return `${LINE.lineOf}: nobody`
  return `${LINE.lineOf}: ${isMine ? 'you' : holder}`
}

/** "12 things pass with the line". */
export function passCount(count: number): string {
  if (count === 0) return LINE.nothingPasses
  return count === 1 ? '1 thing passes with the line' : `${count} things pass with the line`
}

/** "12 things". */
export function thingsWords(count: number): string {
  if (count === 0) return 'nothing'
  return count === 1 ? '1 thing' : `${count} things`
}

/** Under the head of a printed handover. */
export function printedWords(from: string, when: string, to: string | null): string {
  return `Handover of ${from}${to === null ? '' : ` to ${to}`}, printed ${when}`
}
