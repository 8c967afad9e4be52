/**
 * Animals counted together, in words: put together, parted, told apart, and what stands against it.
 * Promise: what is said of a group never says that arrivals became one: each animal keeps its own.
 */
export const GROUP = {
  term: 'Counted together',
  join: 'Put together with others',
  joinNote:
    'They go where the others are and are counted with them from then on. Each keeps its own arrival, and it can be taken back.',
  withWhom: 'With whom',
  howMany: 'How many of those in this place',
  howManyHint: 'Empty means all of them',
  part: 'Count some apart again',
  partNote:
    'Where they are does not change. Those that were put in together go back to the group they came from.',
  tell: 'Say how it can be told from the others',
  toldBy: 'By what',
  toldByHint: 'Such as: ring 12 on the left leg, white spot on the wing',
  places: 'Which places',
  placesHint: 'None chosen means those in the places with the highest numbers',
  submit: 'Record',
} as const

export type Grouped = {
  readonly how: 'joined' | 'parted' | 'told-apart' | 'taken-back'
  readonly withReference: string | null
  readonly animals: number
  readonly toldBy: string | null
}

const animalsWords = (count: number) => (count === 1 ? '1 animal' : `${count} animals`)

/** "Put together with Rush 4, 3 animals in one go". */
export function groupedWords({ how, withReference, animals, toldBy }: Grouped): string {
  switch (how) {
    case 'joined':
      return `Put together with ${withReference ?? 'others'}, ${animalsWords(animals)} in one go`
    case 'parted':
      return `Counted apart again, ${animalsWords(animals)} in one go`
    case 'told-apart':
      return `Told from the others by: ${toldBy ?? ''}`
    case 'taken-back':
      return 'Regrouping taken back'
  }
}

/** "Rush 4 and 2 more, Duck pen 1, room for 2". */
export function joinableWords(one: {
  readonly reference: string
  readonly animals: number
  readonly enclosure: string | null
  readonly room: number | null
}): string {
  const more = one.animals === 1 ? '' : ` and ${one.animals - 1} more`
  const room = one.room === null ? '' : `, room for ${one.room}`
  return `${one.reference}${more}, ${one.enclosure ?? 'in no enclosure'}${room}`
}

/** "5 in care, of 2 arrivals". */
export function countedWords(inCare: number, arrivals: number): string {
  return arrivals === 1 ? `${inCare} in care` : `${inCare} in care, of ${arrivals} arrivals`
}

/** "Rush 4, place 3". */
export function placeOf(placeNo: number, reference: string): string {
  return `Place ${placeNo}, ${reference}`
}

const OTHERS = 'Choose others, or record where each is on its own card. Everything typed is kept.'
const AGAIN = 'Look at who is counted together now, then decide again.'

export const GROUP_RULES = {
  'group-elsewhere': { say: 'They are not at the same centre', next: OTHERS },
  'group-already': { say: 'They are counted together already', next: OTHERS },
  'group-other-species': { say: 'They are not of the same species', next: OTHERS },
  'group-other-company': { say: 'They are not of the same company, so they may not share', next: OTHERS },
  'group-alone': { say: 'One of them must have an enclosure to itself', next: OTHERS },
  'group-in-isolation': {
    say: 'In isolation an arrival is kept from every other',
    next: 'Put them together once quarantine is clear. Everything typed is kept.',
  },
  'group-suspect': {
    say: 'One of them is suspected of a notifiable disease, so arrivals are kept apart',
    next: 'Put them together once that is ruled out. Everything typed is kept.',
  },
  'group-no-room': {
    say: 'Not all of them get a place there',
    next: 'Give a smaller number, or choose others. Nothing was moved.',
  },
  'group-parts-some': {
    say: 'Those are all of them, so nobody would be counted apart',
    next: 'Give a smaller number.',
  },
  'group-changed-since': { say: 'Somebody regrouped them since', next: AGAIN },
} as const
