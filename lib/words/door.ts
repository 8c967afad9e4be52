/**
 * The words of the door: a box that comes in without a call, and what was taken in.
 */

export const DOOR = {
  title: 'At the door',
  choose: 'Which door?',
  chooseNote: 'Where the box is now',
  sentence: 'A box at the door: three words and it is in',
  note: 'What is left empty can be said later on its card.',
  form: 'What came',
  another: 'Another box',
  animal: 'Animal',
  animalHint: 'A few letters of a name',
  looks: 'Or what it looks like',
  looksNone: 'It has a name',
  which: 'Which one?',
  count: 'How many',
  wrong: 'What is wrong',
  wrongHint: 'In your own words; empty if nobody knows',
  more: 'Age, where found, enclosure, note',
  age: 'Age',
  where: 'Where it was found',
  enclosure: 'Put in',
  inBuilding: 'In the building, in no enclosure yet',
  notes: 'Note',
  take: 'Take in',
  outside:
    'A waterbird, gull, bird of prey or anything from a place with dead birds stays outside until somebody looked',
  outsideKept:
    'Look at it in the open, not indoors. A quick test that finds nothing changes nothing, and an injury does not rule bird flu out. Published (S14, S16).',
  bats: 'No bare hands on a bat',
  findPlace: 'Find a place',
  toRound: 'See the round',
  link: 'A box at the door',
} as const

/** "Hedgehog came in", "Mallard: 6 came in". */
export function cameWords(count: number, animal: string): string {
  return count === 1 ? `${animal} came in` : `${animal}: ${count} came in`
}

/** "Write Rush 12 on the box". */
export function labelWords(references: readonly string[]): string {
  return references.length === 1
    ? `Write ${references[0]} on the box`
    : `Write ${references[0]} on the box; the others are ${references.slice(1).join(', ')}`
}

/** Where they are: "in Ward cage 8", "in the building". */
export function putWords(enclosure: string | null): string {
  return enclosure === null ? 'In the building, in no enclosure yet' : `In ${enclosure}`
}
