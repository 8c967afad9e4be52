/**
 * The shapes of a fan: nights that were, bands to come, places, and where the bands pass them.
 * Promise: the scale begins at 0 and holds every mark; the hatched part is exactly the band above the places.
 * Units: x in days from the first night, y in animals counted down from the top of the scale.
 */
import type { Point } from '../ribbon/geometry.ts'
import type { CapacityStep, FanData, FanDay } from './fan-data.ts'

export type Fan = {
  readonly days: number
  readonly top: number
  readonly gridLines: readonly number[]
  readonly past: readonly Point[]
  readonly outer: readonly Point[]
  readonly inner: readonly Point[]
  readonly median: readonly Point[]
  readonly capacity: readonly Point[]
  readonly over: readonly Point[]
}

const STEPS = [1, 2, 5, 10, 20, 50, 100, 200, 500]

/** The top of the scale and the lines across it: at most five, at round numbers. */
export function scaleOf(data: FanData): { top: number; gridLines: number[] } {
  const most = Math.max(
    1,
    ...data.past,
    ...data.ahead.map(day => day.q90),
    ...data.capacity.map(step => step.places),
  )
  const step = STEPS.find(one => most / one <= 5) ?? 1000
  const count = Math.ceil((most * 1.02) / step)
  return { top: count * step, gridLines: Array.from({ length: count + 1 }, (_, i) => i * step) }
}

/** Every shape of the fan. */
export function fanOf(data: FanData): Fan {
  const { top, gridLines } = scaleOf(data)
  const start = data.past.length
  const days = start + data.ahead.length
  const down = (value: number) => top - value
  const line = (of: (day: FanDay) => number): Point[] => {
    const points = data.ahead.map((day, i) => [start + i, down(of(day))] as const)
    const last = points.at(-1)
    return last === undefined ? [] : [...points, [days, last[1]]]
  }
  const band = (low: (day: FanDay) => number, high: (day: FanDay) => number) => [
    ...line(high),
    ...line(low).toReversed(),
  ]
  const steps = stepsOf(data, days)
  return {
    days,
    top,
    gridLines,
    past: data.past.flatMap((count, i) => [[i, down(count)] as const, [i + 1, down(count)] as const]),
    outer: band(
      day => day.q10,
      day => day.q90,
    ),
    inner: band(
      day => day.q25,
      day => day.q75,
    ),
    median: line(day => day.median),
    capacity: steps.flatMap(({ from, to, places }) => [
      [from, down(places)] as const,
      [to, down(places)] as const,
    ]),
    over: overOf(data, days).map(([x, y]) => [x, down(y)] as const),
  }
}

type Step = { readonly from: number; readonly to: number; readonly places: number }

/** The runs of equal capacity, in days on the axis. */
export function stepsOf(data: FanData, days: number): Step[] {
  const origin = data.todayDay - data.past.length
  const sorted = data.capacity.toSorted((a, b) => a.fromDay - b.fromDay)
  return sorted
    .map((step, i) => ({
      from: i === 0 ? 0 : Math.max(0, step.fromDay - origin),
      to: Math.min(days, (sorted[i + 1]?.fromDay ?? origin + days) - origin),
      places: step.places,
    }))
    .filter(({ from, to }) => to > from)
}

/** The part of the 8-in-10 band that lies above the places, as one outline; empty when there is none. */
function overOf(data: FanData, days: number): Point[] {
  const start = data.past.length
  const upper: Point[] = []
  const lower: Point[] = []
  for (const { from, to, places } of stepsOf(data, days)) {
    for (let x = Math.max(from, start); x < to; x++) {
      const a = data.ahead[x - start]
      if (a === undefined) continue
      const b = data.ahead[x - start + 1] ?? a
      const cuts = [0, ...crossings(a.q90, b.q90, places), ...crossings(a.q10, b.q10, places), 1]
      for (const share of cuts.sort((m, n) => m - n)) {
        upper.push([x + share, Math.max(places, a.q90 + share * (b.q90 - a.q90))])
        lower.push([x + share, Math.max(places, a.q10 + share * (b.q10 - a.q10))])
      }
    }
  }
  const isOver = upper.some(([, y], i) => y > (lower[i]?.[1] ?? 0) + 1e-9)
  return isOver ? [...upper, ...lower.toReversed()] : []
}

/** Where a line from `a` to `b` crosses a level, as a share of the way; none when it does not. */
function crossings(a: number, b: number, level: number): number[] {
  if (a === b) return []
  const share = (level - a) / (b - a)
  return share > 0 && share < 1 ? [share] : []
}

/** Heights moved apart to at least `gap`, kept in order and between `low` and `high` where there is room. */
export function spread(heights: readonly number[], gap: number, low: number, high: number): number[] {
  const order = heights.map((_, i) => i).sort((a, b) => (heights[a] ?? 0) - (heights[b] ?? 0))
  const placed = heights.map(() => 0)
  let least = low
  for (const i of order) {
    placed[i] = Math.max(heights[i] ?? 0, least)
    least = (placed[i] ?? 0) + gap
  }
  let most = high
  for (const i of order.toReversed()) {
    placed[i] = Math.min(placed[i] ?? 0, most)
    most = (placed[i] ?? 0) - gap
  }
  return placed
}

/** The worst day ahead, when its chance of being short is at least `from`. */
export function worstOf(data: FanData, from: number): { day: number; chance: number } | undefined {
  const chance = Math.max(0, ...data.shortByDay)
  return chance < from || chance === 0
    ? undefined
    : { day: data.todayDay + data.shortByDay.indexOf(chance), chance }
}

/** The places there are on a day. */
export function placesOn(data: FanData, day: number): number {
  const sorted = data.capacity.toSorted((a, b) => a.fromDay - b.fromDay)
  return (sorted.findLast(step => step.fromDay <= day) ?? sorted[0])?.places ?? 0
}

/** The changes of capacity that fall on the axis. */
export function changesOf(data: FanData): CapacityStep[] {
  const first = data.todayDay - data.past.length
  const sorted = data.capacity.toSorted((a, b) => a.fromDay - b.fromDay)
  return sorted.filter(
    (step, i) => i > 0 && step.fromDay > first && step.fromDay < data.todayDay + data.ahead.length,
  )
}
