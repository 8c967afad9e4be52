/**
 * The words of the Calls pages that are not the call itself: lists, buttons, what was taken.
 */
import { capital } from './capital.ts'

/** What a list line needs of a call. */
type Call = { readonly animal: string; readonly where: string }

export const DESK = {
  title: 'Calls',
  newCall: 'Take a call',
  open: 'Waiting',
  openNote: 'Oldest first. Everything typed is kept.',
  none: 'No call waits',
  noneComing: 'A call that is opened or put aside stands here until it is answered.',
  callBacks: 'Promised call-backs',
  callBacksNote: 'Whoever promised owns it.',
  noCallBacks: 'Nobody was promised a call-back',
  noCallBacksComing: 'A call-back is promised on the call sheet.',
  closed: 'Answered lately',
  closedNote: 'What was shown and taken is kept with each.',
  noClosed: 'No call was answered yet',
  noClosedComing: 'The last twelve stand here.',
  rangBack: 'Rang back',
  aside: 'put aside',
  isOpen: 'open',
  said: 'What was said',
  saidHead: 'Rung back',
  putAsideAndNext: 'Put aside, take the next call',
  sameHead: 'Same animal?',
  sameNote: 'Told of within 1 km and 3 h. Both sheets are kept, and you can take it back.',
  same: 'Same animal',
  notSame: 'Another animal',
  apart: 'Not the same after all',
  sameTogether: 'The same animal, told of more than once',
  callBackOwner: 'Who rings',
  optionsNote: 'Taller band, more room. Slope, when it may end. Hatched hole, a place may be missing.',
  basis:
    'Ranked by what the whole stay costs: days without a proper place, moves, driving. You decide. Chances hold if the animal lives to need the place.',
  rankedFrom: 'Weights are policy of ours, no source',
  cannotWait: "Anything that can't wait?",
  dangers: 'Where it is now',
  moreFacts: 'More about it',
  stageTable: 'Stages, places and chances',
  askedAnswer: 'Who said yes',
  askedHint: 'Ring first, then write who agreed',
  whyOther: 'Why not the first',
  whyOtherHint: 'Only if you like',
  sayToFinder: 'Say to the finder',
  readAloud: 'Read aloud',
  whyHead: 'Why it costs what it costs',
  drive: 'Drive',
  door: 'Door',
  release: 'Out',
  counted: 'Count',
  toOthers: 'Cost to others',
  tonight: 'Tonight',
  callBackMinutes: 'Ring back in',
  callBackWhat: 'What about',
  promise: 'Promise it',
  unnamedHead: 'Nobody can name it',
  unnamedHint: 'What it looks like; strictest handling until it is named',
  whichAnimal: 'Which one?',
  whichPlace: 'Which place?',
  severity: 'How bad',
  kept: 'Everything typed is kept. Options appear as soon as the three facts are known.',
  saved: 'Kept as typed',
  saving: 'Keeping',
  notSaved: 'Not kept yet: no connection. It stays on this page and is sent as soon as there is one.',
  somethingElse: 'Something else',
  nothingElse: 'Nothing else',
  chooseLooks: 'Choose what it looks like',
  allThatFit: 'choose all that fit',
  seeOptions: 'See options',
  skipToOptions: 'Skip to the options',
  byWhatIsSaid: 'By what is said',
  takenTitle: 'Done',
  sayReference: 'Say this reference',
  toCasualty: 'Open the animal',
  toWeeks: 'See the weeks ahead',
  shown: 'What was shown',
  ruledBy: 'Ruled out by',
} as const

/** "Take option 1". */
export function takeWords(rank: number): string {
  return `Take option ${rank}`
}

/** "Kestrel, by the road at Marl Cross", as far as it is known. */
export function callLine(call: Call): string {
  const parts = [
    call.animal === '' ? 'Animal not said' : call.animal,
    call.where === '' ? 'place not said' : call.where,
  ]
  return capital(parts.join(', '))
}

/** What is known of a call in one line: "Kestrel, Heskwith lane: leg dangling". */
export function knownLine(call: Call & { readonly wrong: string }): string {
  return call.wrong === '' ? callLine(call) : `${callLine(call)}: ${call.wrong}`
}

/** Whether a call is open or put aside, by whom, since when: "put aside by Joss Penhaddon, 23:12". */
export function stateLine(call: { readonly at: string | null; readonly by: string | null }): string {
  if (call.at === null) return DESK.isOpen
  return `${DESK.aside}${call.by === null ? '' : ` by ${call.by}`}, ${call.at}`
}

/** Below a call that was put together with the one above. */
export function sameAsWords(line: string): string {
  return `Same animal as the call about ${line}`
}

/** When a call-back is due: "overdue by 12 min", "in 20 min". */
export function dueWords(minutes: number): string {
  const span = spanWords(Math.abs(minutes))
  return minutes < 0 ? `overdue by ${span}` : `in ${span}`
}

function spanWords(minutes: number): string {
  if (minutes < 90) return `${Math.max(1, Math.round(minutes))} min`
  const hours = Math.round(minutes / 60)
  return hours < 36 ? `${hours} h` : `${Math.round(hours / 24)} days`
}

/** Who told of the same animal, and when. */
export function toldByWords(call: { readonly by: string | null; readonly at: string }): string {
  return call.by === null ? `Told at ${call.at}` : `Told to ${call.by} at ${call.at}`
}

/** Who put two calls together. */
export function togetherWords(said: { readonly by: string | null; readonly at: string }): string {
  return `${said.by ?? 'Somebody'} said so at ${said.at}`
}

/** A call-back that was made: "Thu 26 Nov, 08:10, Marit Sollwyn: still quiet". */
export function rungWords(rung: {
  readonly at: string
  readonly by: string | null
  readonly what: string
  readonly said: string | null
}): string {
  const who = rung.by === null ? '' : `, ${rung.by}`
  return `${rung.at}${who}: ${rung.said ?? rung.what}`
}

/** "2 min so far", "3 h". */
export function sinceWords(minutes: number): string {
  if (minutes < 1) return 'just now'
  if (minutes < 90) return `${Math.round(minutes)} min so far`
  const hours = Math.round(minutes / 60)
  return hours < 36 ? `${hours} h` : `${Math.round(hours / 24)} days`
}

/** The answer once an option was taken: where it goes and which reference to say. */
export function takenWords(references: readonly string[], centre: string): string {
  if (references.length === 0) return centre === '' ? 'Answered' : `Answered: ${centre}`
  const [first] = references
  if (references.length === 1) return `${first} is expected at ${centre}`
  return `${first} and ${references.length - 1} more are expected at ${centre}`
}

/** The answer of the list. */
export function waitingSentence(count: number): string {
  if (count === 0) return DESK.none
  return count === 1 ? '1 call waits' : `${count} calls wait`
}

/** "Call at Wed 25 Nov, 23:41". */
export function callAtWords(when: string): string {
  return `Call at ${when}`
}

/** The line that stays in sight on a phone. */
export function bestSoFar(title: string): string {
  return `Best so far: ${title}`
}

/** What the finder says at the door. */
export function sayReferenceWords(reference: string): string {
  return `Say ${reference} when you arrive.`
}

/** A line of what was shown: "Averbrook for the whole stay, 1.37 place-days, taken". */
export function shownWords(title: string, total: number, isTaken: boolean): string {
  return `${title}, ${total.toFixed(2)} place-days${isTaken ? ', taken' : ''}`
}
