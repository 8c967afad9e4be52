/**
 * The words on the plan of a centre: states of places, sizes, how to read the drawing.
 * Promise: every pattern of the drawing also stands in words. Units: metres.
 */

export const PLAN_WORDS = {
  free: 'free',
  place: 'place',
  scale: '5 m, drawn to scale; none is drawn narrower than its words.',
  outdoorsKey:
    'Squares: netting over. Grey: roofed. Dashed wall: fence. Waves: pool. Box on a wall: double door.',
  placesKey:
    'Thick bar: taken. Dots: free. Upright lines: held for somebody. Slanted lines: being cleaned or at rest. Crossed out: shut.',
  smallRibbons: 'Each small ribbon shows the next eight weeks.',
} as const

/** "15 × 4 m". */
export function sizeWords(lengthM: number, widthM: number): string {
  return `${lengthM}\u00a0×\u00a0${widthM}\u00a0m`
}

/** "Upper shelf" and so on, as one faces the wall. */
export function shelfWords(index: number, count: number): string {
  if (count === 1) return 'The wall, left to right'
  if (index === 0) return 'Upper shelf, left to right'
  if (index === count - 1) return 'Lowest shelf, left to right'
  return `Shelf ${index + 1} from above, left to right`
}
