/**
 * The shapes of a stay ribbon: bands, dividers, silhouette, ground and its hole.
 * Promise: neighbouring slopes meet at their midpoint and never cross, whatever the quantiles. Units: x in days from
 * the axis' first day, y in px of a 44 px profile (0 top) or, for the ground, the chance itself (0 surface, 1 bottom).
 */
import type { CareStage } from '#lib/domain/housing.ts'
import { type ChanceTone, chanceTone } from '#lib/words/chance.ts'
import type { RibbonAxis, RibbonData } from './ribbon-data.ts'

export type Point = readonly [x: number, y: number]
export type Slope = { readonly from: number; readonly to: number }
export type Band = { readonly stage: CareStage; readonly points: readonly Point[] }
export type Profile = {
  readonly bands: readonly Band[]
  readonly dividers: readonly (readonly Point[])[]
  readonly silhouette: readonly Point[]
}
export type Ground = {
  readonly slab: readonly Point[]
  readonly surface: readonly Point[]
  readonly hole: readonly Point[]
  readonly tone: ChanceTone
}

export const PROFILE_PX = 44
/** A chance of being short of this or less is not drawn. */
export const DRAWN_FROM = 0.05

const HEIGHTS: Readonly<Record<CareStage, number>> = {
  'critical care': 10,
  quarantine: 10,
  'restricted activity': 18,
  'limited activity': 27,
  'unlimited activity': 38,
  overwintering: 27,
}

/** How free a stage is, in px of the profile. */
export function heightOf(stage: CareStage): number {
  return HEIGHTS[stage]
}

/** From when to when each stage runs out, as days on the axis. */
export function slopesOf(data: RibbonData, axis: RibbonAxis): Slope[] {
  let low = data.startDay
  let high = data.startDay
  const ends = data.stages.map(({ end }) => {
    low = Math.max(low, end.q25)
    high = Math.max(high, end.q75, low)
    return { from: low - axis.fromDay, to: high - axis.fromDay }
  })
  return ends.map((end, i) => {
    const before = ends[i - 1]
    const after = ends[i + 1]
    const isMetBefore = before !== undefined && before.to > end.from
    const isMetAfter = after !== undefined && end.to > after.from
    return {
      from: isMetBefore ? (before.to + end.from) / 2 : end.from,
      to: isMetAfter ? (end.to + after.from) / 2 : end.to,
    }
  })
}

/** Bands, the lines between them and the outline over all. */
export function profileOf(data: RibbonData, axis: RibbonAxis): Profile {
  const slopes = slopesOf(data, axis)
  const start = data.startDay - axis.fromDay
  const bands: Band[] = []
  const dividers: Point[][] = []
  const silhouette: Point[] = []
  data.stages.forEach(({ stage }, i) => {
    const top = PROFILE_PX - heightOf(stage)
    const before = slopes[i - 1] ?? { from: start, to: start }
    const own = slopes[i] ?? before
    const beforeStage = data.stages[i - 1]?.stage
    const beforeTop = beforeStage === undefined ? PROFILE_PX : PROFILE_PX - heightOf(beforeStage)
    const rise: Point[] = [
      [before.from, beforeTop],
      [before.to, top],
    ]
    const fall: Point[] = [
      [own.from, top],
      [own.to, PROFILE_PX],
    ]
    bands.push({ stage, points: [...rise, ...fall, [before.to, PROFILE_PX]] })
    silhouette.push(...rise)
    if (i < data.stages.length - 1) dividers.push(fall)
    else silhouette.push(...fall)
  })
  return { bands, dividers, silhouette }
}

/** The slab under the stay from today on, and the hole where a proper place may be missing. */
export function groundOf(data: RibbonData, axis: RibbonAxis): Ground {
  const out = slopesOf(data, axis).at(-1)?.to ?? 0
  return groundBetween(data.todayDay - axis.fromDay, Math.min(axis.days, out), data.groundByDay)
}

/** Ground from `today` to `until`, in days on an axis that begins at 0; `byDay` begins at `today`. */
export function groundBetween(today: number, until: number, byDay: readonly number[]): Ground {
  const depths = byDay.map(chance => (chance > DRAWN_FROM ? Math.min(1, chance) : 0))
  const at = (x: number) => depths[Math.max(0, Math.floor(x - today))] ?? depths.at(-1) ?? 0
  const from = Math.max(0, today)
  const end = Math.max(from, until)
  const xs: number[] = []
  for (let x = from; x < end; x++) xs.push(x)
  xs.push(end)
  const surface = simplified(xs.map(x => [x, at(x)] as const))
  const hole = surface.some(([, y]) => y > 0) ? closedBelow(surface, 0) : []
  return { surface, slab: closedBelow(surface, 1), hole, tone: chanceTone(1 - Math.max(0, ...xs.map(at))) }
}

function closedBelow(surface: readonly Point[], y: number): Point[] {
  const first = surface[0]
  const last = surface.at(-1)
  if (first === undefined || last === undefined) return []
  return [...surface, [last[0], y], [first[0], y]]
}

/** The same line with fewer points: those that lie within `tolerance` of a straight run between kept ones. */
export function simplified(points: readonly Point[], tolerance = 0.002): Point[] {
  const kept: Point[] = []
  let since: Point[] = []
  points.forEach((point, i) => {
    const from = kept.at(-1)
    const after = points[i + 1]
    since.push(point)
    if (
      from === undefined ||
      after === undefined ||
      since.some(one => offLine(from, after, one) > tolerance)
    ) {
      kept.push(point)
      since = []
    }
  })
  return kept
}

function offLine(from: Point, to: Point, [x, y]: Point): number {
  const share = (x - from[0]) / (to[0] - from[0] || 1)
  return Math.abs(from[1] + share * (to[1] - from[1]) - y)
}

const short = (value: number) => String(Math.round(value * 100) / 100)

/** Points as SVG writes them. */
export function svgPoints(points: readonly Point[]): string {
  return points.map(([x, y]) => `${short(x)},${short(y)}`).join(' ')
}

/** Points as a CSS clip path of a box `width` by `height`. */
export function clipPolygon(points: readonly Point[], width: number, height: number): string {
  const pairs = points.map(([x, y]) => `${short((100 * x) / width)}% ${short((100 * y) / height)}%`)
  return `polygon(${pairs.join(',')})`
}
