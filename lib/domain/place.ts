/**
 * Where an animal was found, and how far that is.
 * Promise: coordinates in the usual writings, plus codes and gazetteer names become degrees; text that names nothing
 * known stays text and is refused nowhere. Travel is ours: the straight line times 1.3 at 50 km/h, unless a table says.
 */
import {
  areaOfPlusCode,
  fullPlusCode,
  isFullPlusCode,
  isShortPlusCode,
  type Point,
  pointOfPlusCode,
} from './plus-code.ts'
import { search } from './search.ts'

export type GazetteerPlace = Point & {
  readonly id: number
  readonly name: string
  readonly kind: string
  readonly also_called: readonly string[]
}

export type Whereabouts =
  | ({ readonly how: 'coordinates' | 'plus code' } & Point)
  | ({ readonly how: 'gazetteer'; readonly placeId: number; readonly name: string } & Point)

export type Road = { readonly km: number; readonly minutes: number }

const EARTH_RADIUS_KM = 6371.0088 // mean radius R1 of the International Union of Geodesy and Geophysics (from memory)
const ROAD_PER_STRAIGHT = 1.3
const KM_PER_HOUR = 50
/** Hits as good as the first are all shown before one is taken for granted. */
const AS_GOOD = 0.5

/** Gazetteer places by a few letters, best first. */
export function searchPlaces<T extends Pick<GazetteerPlace, 'name' | 'also_called'>>(
  typed: string,
  places: readonly T[],
  limit = 8,
) {
  return search(
    typed,
    places,
    place => [{ text: place.name, rank: 0 }, ...place.also_called.map(text => ({ text, rank: 0.25 }))],
    limit,
  )
}

/** The place that words name, if they name one: coordinates, a plus code (short ones near `near`), a gazetteer name. */
export function findWhere(
  typed: string,
  places: readonly GazetteerPlace[],
  near?: Point,
): Whereabouts | undefined {
  const point = parseCoordinates(typed)
  if (point !== undefined) return { how: 'coordinates', ...point }
  const coded = findPlusCode(typed, places, near)
  if (coded !== undefined) return { how: 'plus code', ...coded }
  const [best, next] = searchPlaces(typed, places, 2)
  if (best === undefined || (next !== undefined && next.score - best.score < AS_GOOD && best.score > 0))
    return undefined
  const { id, name, latitude, longitude } = best.item
  return { how: 'gazetteer', placeId: id, name, latitude, longitude }
}

/** Coordinates in decimal degrees, degrees and minutes, or degrees, minutes and seconds; latitude first. */
export function parseCoordinates(typed: string): Point | undefined {
  const text = typed
    .trim()
    .toUpperCase()
    .replace(/[′’]/g, "'")
    .replace(/[″”]|''/g, '"')
  const angle = String.raw`([NSEW])?\s*([-+]?\d{1,3}(?:\.\d+)?)\s*°?\s*(?:(\d{1,2}(?:\.\d+)?)\s*'\s*)?(?:(\d{1,2}(?:\.\d+)?)\s*"\s*)?([NSEW])?`
  const match =
    new RegExp(`^${angle}\\s*[,;\\s]\\s*${angle}$`).exec(text) ?? new RegExp(`^${angle}${angle}$`).exec(text)
  if (match === null || !/[.,°'"NSEW]/.test(text)) return undefined
  const first = readAngle(match.slice(1, 6))
  const second = readAngle(match.slice(6, 11))
  if (first === undefined || second === undefined) return undefined
  const isTurned = first.axis === 'longitude' || second.axis === 'latitude'
  if (first.axis !== undefined && first.axis === second.axis) return undefined
  const [latitude, longitude] = isTurned ? [second.degrees, first.degrees] : [first.degrees, second.degrees]
  return Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180 ? { latitude, longitude } : undefined
}

/** Great circle between two places in km (haversine, which stays exact for near ones). */
export function straightKm(a: Point, b: Point): number {
  const rad = Math.PI / 180
  const half = (from: number, to: number) => Math.sin(((to - from) * rad) / 2) ** 2
  const h =
    half(a.latitude, b.latitude) +
    Math.cos(a.latitude * rad) * Math.cos(b.latitude * rad) * half(a.longitude, b.longitude)
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.sqrt(Math.min(1, h)))
}

/** The drive between two places as we guess it. */
export function roadBetween(a: Point, b: Point): Road {
  const km = straightKm(a, b) * ROAD_PER_STRAIGHT
  return { km, minutes: (km / KM_PER_HOUR) * 60 }
}

export type TravelRow = Road & { readonly from: number; readonly to: number }
type Site = Point & { readonly id: number }

/** The drive between two centres: the table's row in this direction, else the other's, else our guess. */
export function roadBetweenCentres(a: Site, b: Site, table: readonly TravelRow[]): Road {
  const row =
    table.find(one => one.from === a.id && one.to === b.id) ??
    table.find(one => one.from === b.id && one.to === a.id)
  return row === undefined ? roadBetween(a, b) : { km: row.km, minutes: row.minutes }
}

/** A code by itself, or a short one followed by a place it lies near ("QCJ+2V Fenmoor"). */
function findPlusCode(typed: string, places: readonly GazetteerPlace[], near?: Point): Point | undefined {
  const [code = '', ...rest] = typed.trim().split(/[\s,]+/)
  if (isFullPlusCode(code)) return areaOfPlusCode(code) && pointOfPlusCode(code)
  if (!isShortPlusCode(code)) return undefined
  const beside = rest.length === 0 ? near : (searchPlaces(rest.join(' '), places, 1)[0]?.item ?? near)
  const full = beside === undefined ? undefined : fullPlusCode(code, beside)
  return full === undefined ? undefined : pointOfPlusCode(full)
}

function readAngle(
  parts: readonly (string | undefined)[],
): { degrees: number; axis?: keyof Point } | undefined {
  const [before, whole, minutes, seconds, after] = parts
  if (before !== undefined && after !== undefined) return undefined
  const letter = before ?? after
  const fraction = Number(minutes ?? 0) / 60 + Number(seconds ?? 0) / 3600
  if (Number(minutes ?? 0) >= 60 || Number(seconds ?? 0) >= 60) return undefined
  const isNegative = whole?.startsWith('-') === true
  if (isNegative && letter !== undefined) return undefined
  const size = Math.abs(Number(whole)) + fraction
  const degrees = isNegative || letter === 'S' || letter === 'W' ? -size : size
  if (letter === undefined) return { degrees }
  return { degrees, axis: letter === 'N' || letter === 'S' ? 'latitude' : 'longitude' }
}
