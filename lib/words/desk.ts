/**
 * The words of the Calls pages that are not the call itself: lists, buttons, what was taken.
 */

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
  return parts.join(', ')
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
