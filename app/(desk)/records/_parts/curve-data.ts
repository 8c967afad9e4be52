/** Days that a picture of this many days names: at most seven, at even steps of a round number. */
export function ticksOf(days: number): number[] {
  const step = STEPS.find(one => days / one <= TICKS_MAX) ?? Math.ceil(days / TICKS_MAX)
  return Array.from({ length: Math.floor(days / step) + 1 }, (_, at) => at * step)
}

const STEPS = [1, 2, 5, 7, 14, 28, 50, 100, 200]
const TICKS_MAX = 6

/** Days of the table: every day of the first two weeks, then further apart, and the last. */
export function tableDays(days: number): number[] {
  const shown = Array.from({ length: days }, (_, day) => day).filter(
    day => day < 14 || (day < 56 ? day % 7 === 0 : day % 28 === 0),
  )
  return shown.at(-1) === days - 1 ? shown : [...shown, days - 1]
}

/** The corners of a curve from all at the beginning of day 0 on, `x` in days, `y` down from 100. */
export function curvePoints(staying: Float64Array): string {
  return ['0,0', ...Array.from(staying, (share, day) => `${day + 1},${down(share)}`)].join(' ')
}

/** The outline of a band: its upper edge, then the lower one back. */
export function bandPoints(low: Float64Array, high: Float64Array): string {
  const upper = Array.from(high, (share, day) => `${day + 1},${down(share)}`)
  const lower = Array.from(low, (share, day) => `${day + 1},${down(share)}`).reverse()
  return ['0,0', ...upper, ...lower].join(' ')
}

function down(share: number): string {
  return (100 - 100 * share).toFixed(2)
}
