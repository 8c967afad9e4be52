/**
 * The front page in words: what the network holds tonight, and the one button of the demonstration.
 */

export const FRONT = {
  title: 'Tonight',
  answer: 'Answer the waiting call',
  signIn: 'Sign in',
  invented: 'Demonstration: the coast, its centres, people and animals are all invented.',
  notice:
    'A finder is on the phone with a kestrel in a box. One button signs in as the duty coordinator and opens that call.',
  noCall: 'Nobody waits on the line just now.',
  toCalls: 'Open the calls as the duty coordinator',
  others: 'Other people of the demonstration',
  othersNote: 'Each sees what the role may. The password is the same for all; the start command printed it.',
  job: 'Which centre can take this animal for its whole stay',
} as const

/** "6 centres hold 152 animals tonight". */
export function tonightWords(centres: number, inCare: number): string {
  const sites = centres === 1 ? '1 centre holds' : `${centres} centres hold`
  return `${sites} ${inCare === 1 ? '1 animal' : `${inCare} animals`} tonight`
}
