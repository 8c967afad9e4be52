/**
 * The walking order in setup, in words.
 */
import type { Way } from '#lib/domain/walking-order.ts'

export const WALK_PAGE = {
  title: 'Walking order',
  basis: 'A round goes through the rooms from the top, and in each through its enclosures.',
  rooms: 'Rooms',
  noRooms: 'This centre has no room yet',
  noRoomsComing: 'Rooms stand here in the order of the round once they are added.',
  links: 'Walking order of a centre',
} as const

/** "Walking order of Averbrook". */
export function walkAnswer(centre: string): string {
  return `Walking order of ${centre}`
}

export function wayWords(way: Way): string {
  return way === 'earlier' ? 'Earlier' : 'Later'
}

/** What a screen reader says of a button: "Ward 2 earlier". */
export function stepWords(name: string, way: Way): string {
  return `${name} ${way}`
}
