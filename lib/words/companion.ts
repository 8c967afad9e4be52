/** The search for a companion in words: who, how far, and what speaks against each way. */
import type { Companion, Way } from '#lib/domain/companion.ts'

export const COMPANION = {
  head: 'A companion',
  note: 'Reared alone it may take people for its own kind (published: S2). Looked for within 24 to 48 h, and shown until one is with it.',
  apart: 'It is kept apart itself, so nobody can join it yet',
  apartNext: 'Once it is out of quarantine, those that it could join stand here.',
  nobody: 'Nobody of its kind is in care now',
  nobodyNext: 'Ask centres outside the network; sight of another, or a mirror as the last resort.',
  who: 'Who',
  where: 'Where',
  far: 'How far',
  age: 'Age',
  wayIn: 'Moving it in here',
  out: 'Moving this one out',
  better: 'better',
} as const

/** "same centre", "38 km". */
export function farWords(km: number): string {
  return km === 0 ? 'same centre' : `${Math.round(km)}\u00a0km`
}

/** "Young, in care 3 days more or less". */
export function ageApartWords(days: number): string {
  if (days === 0) return 'young, came the same day'
  return days === 1 ? 'young, came 1 day apart' : `young, came ${days} days apart`
}

/** "better: room for it", "no room beside it; leaves another alone". */
export function wayWords(way: Way, better: Companion['better']): string {
  const room = way.hasRoom ? 'room for it' : 'no room now'
  const alone = way.leavesOneAlone ? ', leaves another alone' : ''
  return `${way.kind === better ? `${COMPANION.better}: ` : ''}${room}${alone}`
}
