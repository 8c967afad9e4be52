/**
 * The order in which a round goes: one place earlier or later at a time, so that it needs no dragging.
 * Promise: the same members in every order; the first cannot go earlier nor the last later. Orders are numbered by tens.
 */

export const WAYS = ['earlier', 'later'] as const
export type Way = (typeof WAYS)[number]
const STEP = 10

/** The order with one of its members a place earlier or later; as it was at the ends, and for a stranger. */
export function stepped(order: readonly number[], id: number, way: Way): number[] {
  const from = order.indexOf(id)
  const to = way === 'earlier' ? from - 1 : from + 1
  if (from === -1 || to < 0 || to >= order.length) return [...order]
  const rest = order.filter(one => one !== id)
  return [...rest.slice(0, to), id, ...rest.slice(to)]
}

/** The number of each member of an order. */
export function numbered(order: readonly number[]): { readonly id: number; readonly walkingOrder: number }[] {
  return order.map((id, at) => ({ id, walkingOrder: (at + 1) * STEP }))
}

/** An order as one word of a form: what somebody saw when she pressed. Rooms and enclosures may have the same numbers. */
export function orderWord(kind: 'room' | 'enclosure', order: readonly number[]): string {
  return `${kind}:${order.join('-')}`
}
