/**
 * Moves between centres in words: what is proposed and why, how each stands, what can be done about it.
 * Promise: what moving gains is said of places for this animal and those after it, and never of an animal that ends.
 */
import type { CareStage } from '#lib/domain/housing.ts'
import type { TransferReason, TransferState } from '#lib/domain/transfer.ts'
import { ASK_TURN } from './ask.ts'
import { capital } from './capital.ts'
import { nearTime } from './due.ts'

export const TRANSFER = {
  proposalsHead: 'Moves that would help',
  proposalsNote:
    'For whoever is ready for the next stage or has no proper place: staying against moving, in place-days, by the weights of the policy. The tool suggests, you decide.',
  noProposals: 'Nobody does better elsewhere',
  noProposalsComing:
    'A move stands here as soon as a stage is ready, or somebody has no proper place, and another centre suits better.',
  allAside: 'Nothing but what is set aside below',
  more: 'More moves',
  compare: 'Staying and moving, term by term',
  stay: 'Staying',
  move: 'Moving',
  propose: 'Ask the centre',
  offered: 'Its standing offer answers for it: nobody need be asked.',
  agree: 'Agree by its standing offer',
  agreedByOffer: 'Agreed by the standing offer of the centre: nobody is asked. Plan the drive below',
  proposeTitle: 'Propose this move',
  when: 'Expected there',
  whenHint: 'A place is kept from then on, once the centre has said yes',
  underWayHead: 'Moves under way',
  underWayNote: 'Agreed by the receiving centre, then driven. Whoever ended within a day stands at the foot.',
  none: 'No move is under way',
  noneComing: 'What is proposed stands here until it has arrived.',
  animal: 'Animal',
  where: 'From and to',
  state: 'State',
  todo: 'Do',
  cancel: 'Cancel the move',
  plan: 'Plan the drive',
  openAsk: 'Open the ask',
  openJourney: 'Open the journey',
  done: 'The centre is asked',
  cancelled: 'The move is cancelled',
  byHandTitle: 'Propose a move',
  centre: 'To which centre',
  chooseCentre: 'Choose one',
} as const

type Proposed = {
  readonly reference: string
  readonly species: string
  readonly why: 'ready' | 'short'
  readonly stage: CareStage
  readonly from: string
  readonly to: { readonly name: string }
  readonly km: number
  readonly bills: { readonly because: string; readonly gain: number }
}

/** "Rush 12, Kestrel: from Averbrook to Farrowmere". */
export function proposalHead({ reference, species, from, to }: Proposed): string {
  return `${reference}, ${species}: from ${from} to ${to.name}`
}

/** Why: "Ready for limited activity. Averbrook has no flight aviary for it. Moving costs 3.20 place-days less, 41 km". */
export function proposalBecause(move: Proposed): string {
  const first = move.why === 'ready' ? `Ready for ${move.stage}` : 'No proper place now'
  const because = move.bills.because === '' ? '' : ` ${capital(move.bills.because)}.`
  return `${first}.${because} Moving costs ${gainWords(move.bills.gain)} less than staying, ${Math.round(move.km)} km included.`
}

/** "3.20 place-days". */
export function gainWords(gain: number): string {
  return gain === 1 ? '1.00 place-day' : `${gain.toFixed(2)} place-days`
}

/** "Staying at Averbrook". */
export function wayHead(way: 'stay' | 'move', centre: string): string {
  return way === 'stay' ? `${TRANSFER.stay} at ${centre}` : `${TRANSFER.move} to ${centre}`
}

function helpWords(helping: number, aside: number): string {
  if (helping > 0) return helping === 1 ? '1 move would help' : `${helping} moves would help`
  return aside === 0
    ? TRANSFER.noProposals
    : `No other move would help, ${aside} ${aside === 1 ? 'is' : 'are'} set aside`
}

/** The answer of the page about moves: "2 moves would help, 1 is under way". */
export function movesAnswer(helping: number, open: number, journeys: number, aside: number): string {
  const help = helpWords(helping, aside)
  const running = open === 0 ? '' : open === 1 ? ', 1 is under way' : `, ${open} are under way`
  const road =
    journeys === 0
      ? ''
      : journeys === 1
        ? ', 1 journey is on the road'
        : `, ${journeys} journeys are on the road`
  return `${help}${running}${road}`
}

const REASON: Readonly<Record<TransferReason, string>> = {
  ready: 'ready for its next stage',
  short: 'had no proper place',
  'by-hand': 'proposed by hand',
}

type Transfer = {
  readonly state: TransferState
  readonly reason: TransferReason
  readonly expectedAt: Date
  readonly endedAt: Date | null
  readonly answerBy: Date | null
  readonly agreedBy: string | null
  readonly held: string | null
  readonly to: string
}

/** How a move stands: "asked, answer by 14:20". */
export function transferStateWords(one: Transfer, now: Date, zone: string): string {
  const at = (when: Date | null) => (when === null ? '' : ` ${nearTime(when, now, zone)}`)
  const place = one.held === null ? 'no place is kept' : `${one.held} is kept`
  const ended = at(one.endedAt)
  switch (one.state) {
    case 'proposed':
      return `${one.to} is asked${one.answerBy === null ? '' : `, answer by${at(one.answerBy)}`}`
    case 'agreed':
      return `Agreed${one.agreedBy === ASK_TURN.standingOffer ? ' by its standing offer' : ''}, expected${at(one.expectedAt)}; ${place}`
    case 'on-the-road':
      return `On the road; ${place}`
    case 'arrived':
      return `Arrived${ended}`
    case 'turned-back':
      return `Turned back${ended}`
    case 'refused':
      return `${one.to} said no${ended}`
    case 'cancelled':
      return `Cancelled${ended}`
    case 'expired':
      return `Expired${ended}`
  }
}

export function transferReasonWords(reason: TransferReason): string {
  return REASON[reason]
}
