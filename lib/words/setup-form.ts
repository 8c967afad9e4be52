/**
 * The words of setup's forms that are not the title of a field: heads of parts, margin notes, choices.
 */

export const CENTRE_FORM = {
  doorsNote: 'A closed door is never offered for now. Times are those of the network.',
  takesHead: 'What it takes',
  takesNote: 'A group that is not ticked is not offered here.',
  offersHead: 'Standing offers',
  offersNote: 'Places that the desk fills without asking. Beyond them the centre is asked first.',
  offersFold: 'Groups without an offer',
} as const

export const CONTACT_FORM = {
  head: 'Who answers',
  note: 'Beyond a standing offer they are asked in this order. Whoever stays silent is followed by the next.',
  hint: 'Hours over midnight are fine: 20:00 to 08:00. Empty hours: at any time. Without anybody the phone above is rung.',
} as const

export const ROOM_FORM = {
  head: 'The room',
  note: 'Rounds go by walking order, the lowest first.',
} as const

export const ENCLOSURE_FORM = {
  what: 'What it is',
  size: 'How large',
  sizeNote: 'In an aviary the longer side is the length that can be flown.',
  care: 'Cleaning',
  stocking: 'Who may be in',
  stockingNote:
    'How many of a company at once; empty means none of them. One company is in at a time, and whoever must be alone has one place.',
  stockingLabel: 'Places at once',
  stockingFold: 'Companies that are not taken',
  minutesHint: 'From leaving until the next may come',
} as const

export const CLOSURE_FORM = {
  what: 'What is closed',
  until: 'Until when',
  note: 'Whoever is in then has no proper place: that is the list to move. Promises in that time are given up and named.',
  startsHint: 'Empty: from now on',
} as const

export const CLOSURE_PAGE = {
  open: 'Closed or going to be',
  over: 'Over',
  noneOpen: 'Nothing is closed',
  noneOpenComing: 'A closure stands here from the moment it is planned until it is lifted.',
  noneOver: 'No closure is over yet',
  noneOverComing: 'The last twenty stand here.',
  where: 'Enclosure',
  from: 'From',
  until: 'Until',
  reason: 'Reason',
  openEnd: 'until it is lifted',
  lifting: 'Lifting',
  liftNote: 'From then on it takes animals again, and whoever stayed has a place.',
  lift: 'Lift it now',
  inside: 'Who is in',
  nobody: 'Nobody is in',
  nobodyComing: 'There is nothing to move.',
  facts: 'The closure',
  when: 'When',
  lifted: 'Lifted',
} as const

export const PRACTICE_FORM = {
  doorsNote: 'A practice is offered only while a vet can be reached.',
  sees: 'What it sees',
  seesNote: 'A group that is not ticked is not sent there.',
  nightYes: 'a vet at night',
  nightNo: 'no vet at night',
  groups: 'Groups seen',
} as const

export const DRIVER_FORM = {
  when: 'When they drive',
  whenNote: 'Who drives is rung by hand; the hours say whom first. Without hours: at any time of the day.',
  what: 'Where and in what',
  area: 'Drives',
  nightYes: 'at night too',
  nightNo: 'not at night',
} as const

export const ARRIVALS_FORM = {
  who: 'Which arrivals',
  howMany: 'How many in a year',
  months: 'When in the year',
  monthsLabel: 'Share of the year in each month',
  sizes: 'How many at once',
  sizesLabel: 'Share of arrivals that bring',
  sizesNote: 'A brood or an oiled flock is one arrival. The shares add up to 100 %.',
  source: 'Where the figures come from',
  sourceHint: 'Figures that are changed become ours, unless another source is named here.',
  perYear: 'Animals a year',
  atOnce: 'At once, on average',
  busiest: 'Busiest month',
  mark: 'Source',
  group: 'Group',
  noughtNote: 'A line is never deleted: 0 animals a year says that none are expected.',
} as const

/** "1 animal", "4 animals". */
export function sizeWords(animals: number): string {
  return animals === 1 ? '1 animal' : `${animals} animals`
}

/** "Small songbirds at Averbrook: about 420 animals a year". */
export function arrivalsAnswer(group: string, centre: string, animals: number): string {
  return `${group} at ${centre}: about ${Math.round(animals)} animals a year`
}

/** "Aviary 2, Flights, Farrowmere: closed from Thu 26 Nov 08:00". */
export function closureAnswer(place: string, state: 'planned' | 'closed' | 'over'): string {
  const said = { planned: 'will be closed', closed: 'is closed', over: 'was closed' }[state]
  return `${place} ${said}`
}

/** "2 animals are in it and have no proper place". */
export function insideAnswer(count: number, isClosed: boolean): string {
  if (!isClosed) return count === 1 ? '1 animal is in it' : `${count} animals are in it`
  return count === 1
    ? '1 animal is in it and has no proper place'
    : `${count} animals are in it and have no proper place`
}

/** "3 promises were given up for it". */
export function brokenWords(count: number): string {
  return count === 1 ? '1 kept place was given up for it' : `${count} kept places were given up for it`
}

export const POLICY_FORM = {
  preset: 'How it weighs',
  presetNote:
    'Three settings, each with what it gives up. Choosing another one brings its two weights with it.',
  weights: 'The weights behind it',
  weightsNote:
    'In place-days: one animal one day without a proper place. Policy of ours, no source. Only an administrator changes them; the next option is ranked by the new ones.',
  saveWeights: 'Save these weights',
  times: 'Times and chances',
  givesUp: 'Gives up',
} as const

export const PERSON_FORM = {
  who: 'Who it is',
  roles: 'What they do here',
  rolesNote:
    'A carer belongs to a centre, a vet to a practice; the other roles go without either. Rights hold from the next click.',
  rolesHint: 'One line a role. Empty lines count for nothing.',
  role: 'Role',
  centre: 'Centre of a carer',
  practice: 'Practice of a vet',
  first: 'First password',
  firstNote:
    'Leave it empty and make an invitation on the next page. Or choose one and tell it by voice; it is kept as a hash only.',
  again: 'New password',
  againNote: 'Every session with the old one ends at the next click.',
  passwordHint: '12 characters or more',
  setPassword: 'Set this password',
  switchNote:
    'Signing in ends, and every session ends at the next click. What was done stays under the name.',
  switchedOff:
    'Switched on again, the password from before opens the desk. What was done stays under the name.',
  email: 'E-mail',
} as const

const ROLE: Readonly<Record<'coordinator' | 'carer' | 'vet' | 'manager' | 'administrator', string>> = {
  coordinator: 'Coordinator',
  carer: 'Carer',
  vet: 'Partner vet',
  manager: 'Manager',
  administrator: 'Administrator',
}

export function roleWords(role: keyof typeof ROLE): string {
  return ROLE[role]
}

/** "Carer, Tamsel House". */
export function heldRoleWords(role: keyof typeof ROLE, place: string | null): string {
  return place === null ? ROLE[role] : `${ROLE[role]}, ${place}`
}
