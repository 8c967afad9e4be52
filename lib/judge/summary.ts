/**
 * What a backtest says: for each horizon how well the forecast's doubt was right, how near it was, and who was nearer.
 * Promise: skill is told against each rival over the days on which that rival could speak, and a rival that was nearer is named;
 * every figure has the standard error of blocks of days. The same origins give the same figures, in whatever order.
 */
import type { JudgedHorizon, JudgedOrigin, JudgedRival } from '#lib/domain/judged-forecast.ts'
import { blockDays, type Figure, ratioOf } from './blocks.ts'
import { LEVELS } from './pinball.ts'
import { PIT_BINS } from './pit.ts'

/**
 * Against one rival: its mean CRPS, its coverage, and the share of its CRPS that the forecast saves (skill; below 0 the rival
 * is nearer). `needsDays`: where it could never speak, the history it needs; else null.
 */
export type RivalSummary =
  | {
      readonly name: string
      readonly kind: 'judged'
      readonly pairs: number
      readonly crps: Figure
      readonly coverage: Figure
      readonly skill: Figure
    }
  | { readonly name: string; readonly kind: 'too short'; readonly needsDays: number }

/**
 * One horizon. `coverage`: mean share of the counts in the middle of 8 chances in 10; right is 0.8. `crps` in animals;
 * `pinball` by LEVELS, in animals; `pit`: shares by bar, sum 1; right is flat. `beatenBy`: rivals with less CRPS.
 */
export type HorizonSummary = {
  readonly horizon: number
  readonly origins: number
  readonly pairs: number
  readonly coverage: Figure
  readonly crps: Figure
  readonly pinball: readonly number[]
  readonly pit: readonly number[]
  readonly rivals: readonly RivalSummary[]
  readonly beatenBy: readonly string[]
}

/** Figures by horizon, in ascending order; a horizon for which no truth was known is left out. */
export function summaryOf(judged: readonly JudgedOrigin[]): HorizonSummary[] {
  const sorted = judged.toSorted((a, b) => a.origin - b.origin)
  const horizons = [...new Set(sorted.flatMap(one => one.horizons.map(({ horizon }) => horizon)))]
  return horizons
    .sort((a, b) => a - b)
    .flatMap(horizon => {
      const days = sorted.flatMap(({ origin, horizons: all }) =>
        all.filter(one => one.horizon === horizon && one.pairs > 0).map(one => ({ ...one, day: origin })),
      )
      return days.length > 0 ? [summaryOfHorizon(horizon, days)] : []
    })
}

type Day = JudgedHorizon & { readonly day: number }

function summaryOfHorizon(horizon: number, days: readonly Day[]): HorizonSummary {
  const pairs = days.reduce((sum, day) => sum + day.pairs, 0)
  const mean = (of: (day: Day) => number) => days.reduce((sum, day) => sum + of(day), 0) / pairs
  const figure = (of: (day: Day) => number) =>
    figureOf(
      days.map(day => ({ day: day.day, over: of(day), under: day.pairs })),
      horizon,
    )
  const names = [...new Set(days.flatMap(day => day.rivals.map(({ name }) => name)))]
  const rivals = names.map(name => rivalSummary(name, days, horizon))
  return {
    horizon,
    origins: days.length,
    pairs,
    coverage: figure(day => day.coverage),
    crps: figure(day => day.crps),
    pinball: LEVELS.map((_, i) => mean(day => day.pinball[i]!)),
    pit: Array.from({ length: PIT_BINS }, (_, i) => mean(day => day.pit[i]!)),
    rivals,
    beatenBy: rivals.filter(one => one.kind === 'judged' && one.skill.value < 0).map(({ name }) => name),
  }
}

function rivalSummary(name: string, days: readonly Day[], horizon: number): RivalSummary {
  const all = days.flatMap(({ day, rivals }) =>
    rivals.filter(rival => rival.name === name).map(rival => ({ day, ...rival })),
  )
  // A day on which it could not speak is no block of its own: a ratio of few blocks would seem sure.
  const parts = all.filter(({ pairs }) => pairs > 0)
  const pairs = parts.reduce((sum, part) => sum + part.pairs, 0)
  if (pairs === 0)
    return { name, kind: 'too short', needsDays: Math.max(...all.map(({ needsDays }) => needsDays)) }
  const figure = (over: keyof JudgedRival & ('theirs' | 'coverage')) =>
    figureOf(
      parts.map(part => ({ day: part.day, over: part[over], under: part.pairs })),
      horizon,
    )
  return {
    name,
    kind: 'judged',
    pairs,
    crps: figure('theirs'),
    coverage: figure('coverage'),
    skill: skillOf(parts, horizon),
  }
}

/** 1 - ours / theirs; 0 where both were always exactly right, as a rival's CRPS of 0 leaves no ratio. */
function skillOf(
  parts: readonly { readonly day: number; readonly ours: number; readonly theirs: number }[],
  horizon: number,
): Figure {
  const ratio = ratioOf(
    parts.map(({ day, ours, theirs }) => ({ day, over: ours, under: theirs })),
    blockDays(horizon),
  )
  if (ratio !== null) return { ...ratio, value: 1 - ratio.value }
  const ours = parts.reduce((sum, part) => sum + part.ours, 0)
  return { value: ours > 0 ? -1 : 0, standardError: null }
}

function figureOf(parts: Parameters<typeof ratioOf>[0], horizon: number): Figure {
  return ratioOf(parts, blockDays(horizon)) ?? { value: 0, standardError: null }
}
