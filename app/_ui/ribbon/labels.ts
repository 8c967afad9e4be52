/**
 * Where the words of a ribbon stand: labels under it, dates along it, texts of checks above it.
 * Promise: labels never overlap where their widths fit into the box, and none leaves it at the right; a check's text
 * never crosses the stem of another. Widths are estimates in px of 13 px text, on the generous side.
 */
import { type DayNumber, weekdayOf } from '#lib/domain/day.ts'
import { shortDate } from '#lib/words/dates.ts'
import type { RibbonAxis } from './ribbon-data.ts'

const CHARACTER_PX = 7
/** The room that texts of checks have at the right of the picture. */
export const OVERHANG_PX = 120
// The container widths of ribbon-words.css at which words get shorter.
const NARROW_PX = 560
const PAPER_PX = 660
const LONG_PX = 860
const PHONE_PX = 340

/** An estimate of how wide a text is, in px at 13 px. */
export function textWidth(text: string): number {
  return Math.ceil(text.length * CHARACTER_PX)
}

export type Label = {
  /** Where it wants to begin, in per cent of the width. */
  readonly at: number
  /** What it needs, gap included, in px. */
  readonly width: number
}

/** The left edges as CSS: each at its place, pushed right by the one before, held inside by those after. */
export function labelLefts(labels: readonly Label[]): string[] {
  let left = ''
  return labels.map(({ at }, i) => {
    const widthBefore = labels[i - 1]?.width ?? 0
    const pushed = left === '' ? `${round(at)}%` : `max(${round(at)}%,${left} + ${widthBefore}px)`
    left = `min(${pushed},100% - ${needed(labels, i)}px)`
    return left
  })
}

/** The same for a box of known width, in px: what the browser makes of the CSS. */
export function labelPixels(labels: readonly Label[], boxWidth: number): number[] {
  let end = 0
  return labels.map((label, i) => {
    const left = Math.min(Math.max((label.at / 100) * boxWidth, end), boxWidth - needed(labels, i))
    end = left + label.width
    return left
  })
}

/** Up to which width of the picture its words must be short: their class, by what they need in px. */
export function fitClass(wide: readonly Label[], narrow: readonly Label[]): string {
  const wideNeed = needed(wide, 0)
  const narrowNeed = needed(narrow, 0)
  const steps = [
    [LONG_PX, 'fit-never'],
    [PAPER_PX, 'fit-long'],
    [NARROW_PX, 'fit-paper'],
  ] as const
  const wideClass = steps.find(([px]) => wideNeed > px)?.[1] ?? ''
  return `${wideClass} ${narrowNeed > PHONE_PX ? 'fit-list' : ''}`.trim()
}

function needed(labels: readonly Label[], from: number): number {
  return labels.slice(from).reduce((sum, label) => sum + label.width, 0)
}

export type Tick = {
  /** In per cent of the width. */
  readonly at: number
  /** The date, every second week of a usual axis; none near today or the right edge. */
  readonly text?: string
  /** Also written where the picture is narrow. */
  readonly isMain: boolean
}

const CLEAR_OF_TODAY = 9

/** A tick each Monday, a date every second week, every fourth when narrow. */
export function ticksOf(axis: RibbonAxis, today: DayNumber): Tick[] {
  const ticks: Tick[] = []
  const todayAt = (100 * (today - axis.fromDay)) / axis.days
  // A long axis would crowd its dates, a short one would have none.
  const step = axis.days > 130 ? 4 : axis.days > 42 ? 2 : 1
  const firstMonday = axis.fromDay + ((8 - weekdayOf(axis.fromDay)) % 7)
  for (let week = 0; firstMonday + 7 * week < axis.fromDay + axis.days; week++) {
    const day = firstMonday + 7 * week
    const at = (100 * (day - axis.fromDay)) / axis.days
    const isDated = week % step === 0 && Math.abs(at - todayAt) >= CLEAR_OF_TODAY && at <= 94
    ticks.push({
      at,
      ...(isDated ? { text: shortDate(day) } : {}),
      isMain: week % (2 * step) === 0 && at <= 86 && Math.abs(at - todayAt) >= 2 * CLEAR_OF_TODAY,
    })
  }
  return ticks
}

export type Stem = { readonly at: number; readonly width: number }

/**
 * The row of each check's text above the profile, 0 lowest: from right to left, a text that would cross the next stem
 * goes one row higher. A text that would leave the box has none: the table behind the picture says it.
 */
export function stemRows(stems: readonly Stem[], boxWidth: number): (number | undefined)[] {
  const left = (stem: Stem) => (stem.at / 100) * boxWidth
  const rows: (number | undefined)[] = stems.map(() => undefined)
  for (let i = stems.length - 1; i >= 0; i--) {
    const stem = stems[i]
    if (stem === undefined || left(stem) + stem.width > boxWidth + OVERHANG_PX) continue
    const crossed = stems.map((other, j) =>
      j > i && left(other) < left(stem) + stem.width ? (rows[j] ?? 0) + 1 : 0,
    )
    rows[i] = Math.max(0, ...crossed)
  }
  return rows
}

function round(value: number): number {
  return Math.round(value * 100) / 100
}
