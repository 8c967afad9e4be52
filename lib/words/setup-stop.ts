/**
 * The states of a site in words: what each does, from when, until when, whom it covers.
 * Promise: built on what was read of bird flu in rescue centres (S14); the states themselves are common practice.
 */
import type { AnimalClass } from '#lib/domain/species.ts'

export const STOP_PAGE = {
  open: 'In force or planned',
  over: 'Over',
  noneOpen: 'Every site is open',
  noneOpenComing: 'A state stands here from the moment it is planned until it is over.',
  noneOver: 'No state is over yet',
  noneOverComing: 'The last twenty stand here.',
  centre: 'Centre',
  state: 'State',
  covers: 'Covers',
  from: 'From',
  until: 'Until',
  reason: 'Reason',
  openEnd: 'until it is ended',
  openSites: 'Open',
  openDoes: 'An open site sends and receives whatever it takes.',
  facts: 'The state',
  does: 'What it does',
  inside: 'There now',
  ending: 'Ending it',
  endNote: 'From then on the site is open. Promises that it broke are not made again.',
  end: 'End it now',
  takeBack: 'Take it back',
  takeBackNote: 'It has not begun. Promises that it broke are not made again.',
} as const

export const STOP_FORM = {
  what: 'Which site, and what holds there',
  note: 'Nothing is moved into or out of a restricted site (S14; the four states are common practice). A person decides and reports; this only keeps plans away.',
  when: 'From when, until when',
  whenNote: 'Promises into and out of the site in that time are named before the state is set.',
  startsHint: 'Empty: from now on',
  all: 'All animals',
} as const

const DOES: Readonly<Record<'closed-to-high-risk' | 'isolation-full' | 'no-movement', string>> = {
  'closed-to-high-risk':
    'Animals at high risk of bird flu are not planned into this site; others come and go as before',
  'isolation-full': 'Nothing that needs isolation is planned into this site; others come and go as before',
  'no-movement':
    'Nothing it covers is planned into or out of this site; animals that are there can change places within it',
}

/** What a state does, one sentence without a full stop. */
export function siteStateDoes(state: keyof typeof DOES): string {
  return DOES[state]
}

/** Whom a state covers. */
export function coversWords(animalClass: AnimalClass | null): string {
  if (animalClass === null) return STOP_FORM.all
  return animalClass === 'bird' ? 'Birds' : 'Mammals'
}

/** "Movement stop: nothing in, nothing out, at Osterskeld, since Mon 23 Nov". */
export function stopAnswer(
  centre: string,
  stateWords: string,
  state: 'planned' | 'in force' | 'over',
): string {
  const said = { planned: 'is planned', 'in force': 'holds', over: 'is over' }[state]
  return `${centre}: ${stateWords.charAt(0).toLowerCase()}${stateWords.slice(1)} (${said})`
}

/** "12 animals that it covers". */
export function coveredWords(count: number): string {
  return count === 1 ? '1 animal that it covers' : `${count} animals that it covers`
}

/** "1 site is not open", "Every site is open". */
export function stopsAnswer(inForce: number, planned: number): string {
  const now =
    inForce === 0
      ? STOP_PAGE.noneOpen
      : inForce === 1
        ? '1 site is not open'
        : `${inForce} sites are not open`
  return planned === 0 ? now : `${now}; ${planned} planned`
}
