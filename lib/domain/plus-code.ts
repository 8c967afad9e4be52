/**
 * Plus codes (Open Location Code): full codes to a place, short codes with a place nearby.
 * Promise: the middle of the code's area in degrees, or nothing for text that is no code. Upper or lower case.
 * Method: the published specification of Open Location Code (base 20 pairs, then a grid of 4 columns by 5 rows).
 */

const DIGITS = '23456789CFGHJMPQRVWX'
const SEPARATOR = '+'
const SEPARATOR_AT = 8
const PAIR_DIGITS = 10
const MAX_DIGITS = 15
const GRID_COLUMNS = 4
const GRID_ROWS = 5

export type Point = { readonly latitude: number; readonly longitude: number }
export type Area = {
  readonly south: number
  readonly west: number
  readonly north: number
  readonly east: number
}

/** Whether text is a plus code that names a place by itself. */
export function isFullPlusCode(text: string): boolean {
  const code = text.toUpperCase()
  if (!isPlusCode(code) || code.indexOf(SEPARATOR) !== SEPARATOR_AT) return false
  // The first pair says which 20 degrees: latitude ends at 90, longitude at 180.
  return DIGITS.indexOf(code.charAt(0)) * 20 < 180 && DIGITS.indexOf(code.charAt(1)) * 20 < 360
}

/** Whether text is a plus code that needs a place nearby. */
export function isShortPlusCode(text: string): boolean {
  const at = text.indexOf(SEPARATOR)
  return isPlusCode(text.toUpperCase()) && at >= 0 && at < SEPARATOR_AT
}

/** The area of a full code; undefined for other text. */
export function areaOfPlusCode(text: string): Area | undefined {
  if (!isFullPlusCode(text)) return undefined
  const digits = text.toUpperCase().replace(SEPARATOR, '').replace(/0+$/, '').slice(0, MAX_DIGITS)
  let south = -90
  let west = -180
  let high = 400
  let wide = 400
  for (let at = 0; at < digits.length; at++) {
    const value = DIGITS.indexOf(digits.charAt(at))
    if (at >= PAIR_DIGITS) {
      high /= GRID_ROWS
      wide /= GRID_COLUMNS
      south += Math.floor(value / GRID_COLUMNS) * high
      west += (value % GRID_COLUMNS) * wide
    } else if (at % 2 === 0) {
      high /= 20
      south += value * high
    } else {
      wide /= 20
      west += value * wide
    }
  }
  return { south, west, north: Math.min(south + high, 90), east: west + wide }
}

/** The middle of a full code's area; undefined for other text. */
export function pointOfPlusCode(text: string): Point | undefined {
  const area = areaOfPlusCode(text)
  return area && { latitude: (area.south + area.north) / 2, longitude: (area.west + area.east) / 2 }
}

/** The full code that a short one means near a place: the nearest of those that end in it; undefined for other text. */
export function fullPlusCode(short: string, near: Point): string | undefined {
  if (isFullPlusCode(short)) return short.toUpperCase()
  if (!isShortPlusCode(short)) return undefined
  const missing = SEPARATOR_AT - short.indexOf(SEPARATOR)
  const resolution = 20 ** (2 - missing / 2)
  const latitude = Math.min(90, Math.max(-90, near.latitude))
  const longitude = wrapped(near.longitude)
  const code = encodePlusCode({ latitude, longitude }).slice(0, missing) + short.toUpperCase()
  const middle = pointOfPlusCode(code)
  if (middle === undefined) return undefined
  return encodePlusCode(nearest(middle, { latitude, longitude }, resolution), short.length + missing - 1)
}

/** The code of a place, ten digits unless asked otherwise. */
export function encodePlusCode({ latitude, longitude }: Point, length = PAIR_DIGITS): string {
  // Whole steps of the finest grid, so that no rounding crosses a line: 1/25,000,000 of a degree by 1/8,192,000.
  const finestRows = 8000 * GRID_ROWS ** (MAX_DIGITS - PAIR_DIGITS)
  const finestColumns = 8000 * GRID_COLUMNS ** (MAX_DIGITS - PAIR_DIGITS)
  let rows = Math.min(Math.max(Math.floor(latitude * finestRows) + 90 * finestRows, 0), 180 * finestRows - 1)
  let columns = Math.floor(wrapped(longitude) * finestColumns) + 180 * finestColumns
  let digits = ''
  for (let at = MAX_DIGITS; at > PAIR_DIGITS; at--) {
    digits = DIGITS.charAt((rows % GRID_ROWS) * GRID_COLUMNS + (columns % GRID_COLUMNS)) + digits
    rows = Math.floor(rows / GRID_ROWS)
    columns = Math.floor(columns / GRID_COLUMNS)
  }
  for (let at = PAIR_DIGITS; at > 0; at -= 2) {
    digits = DIGITS.charAt(rows % 20) + DIGITS.charAt(columns % 20) + digits
    rows = Math.floor(rows / 20)
    columns = Math.floor(columns / 20)
  }
  const kept = digits.slice(0, Math.min(Math.max(length, 2), MAX_DIGITS)).padEnd(SEPARATOR_AT, '0')
  return kept.slice(0, SEPARATOR_AT) + SEPARATOR + kept.slice(SEPARATOR_AT)
}

function nearest(middle: Point, near: Point, resolution: number): Point {
  const half = resolution / 2
  let { latitude, longitude } = middle
  if (near.latitude + half < latitude && latitude - resolution >= -90) latitude -= resolution
  else if (near.latitude - half > latitude && latitude + resolution <= 90) latitude += resolution
  if (near.longitude + half < longitude) longitude -= resolution
  else if (near.longitude - half > longitude) longitude += resolution
  return { latitude, longitude }
}

function wrapped(longitude: number): number {
  return ((((longitude + 180) % 360) + 360) % 360) - 180
}

function isPlusCode(code: string): boolean {
  const [before = '', after = '', ...more] = code.split(SEPARATOR)
  if (!code.includes(SEPARATOR) || more.length > 0) return false
  if (before.length > SEPARATOR_AT || before.length % 2 === 1 || after.length === 1) return false
  if (before.length === 0 && after.length === 0) return false
  const isPadded = /^(?:[^0]{2}|[^0]{4}|[^0]{6})0+$/.test(before)
  if (isPadded && (before.length < SEPARATOR_AT || after.length > 0)) return false
  const digits = (isPadded ? before.replace(/0+$/, '') : before) + after
  return [...digits].every(digit => DIGITS.includes(digit))
}
