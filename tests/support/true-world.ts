/**
 * A network as it truly is: how long its stages last, how many arrive and where, each drawn about what plans and centres
 * say as the engine's priors have it. A generator that shares nothing with the engine: laws are written out anew here.
 */
import type { CareStage, HousingType } from '#lib/domain/housing.ts'
import { ALL_SPECIES_SHAPE } from '#lib/domain/season.ts'
import { type Draw, normals, xoshiro } from '#tests/montecarlo/random.ts'
import type { StageTruth } from './stage-truth.ts'

/** Stage, housing, and what the plan says: chance of death, median and sd of the log of the time to death and to ready. */
type PlanStage = readonly [CareStage, HousingType, StageTruth]

const plan = (
  stage: CareStage,
  housing: HousingType,
  early: number,
  death: readonly [number, number],
  ready: readonly [number, number],
): PlanStage => [stage, housing, { early, death, ready }]

/** Four conditions; each has three species groups. */
const PLANS: readonly (readonly PlanStage[])[] = [
  [
    plan('critical care', 'intensive-care', 0.35, [1.5, 1], [2, 0.8]),
    plan('restricted activity', 'hospital-cage', 0.1, [5, 1], [9, 0.6]),
    plan('unlimited activity', 'flight-aviary', 0.04, [8, 1], [12, 0.6]),
  ],
  [
    plan('quarantine', 'isolation', 0.15, [3, 0.9], [6, 0.4]),
    plan('restricted activity', 'hospital-cage', 0.1, [6, 1], [14, 0.5]),
    plan('limited activity', 'indoor-pen', 0.05, [6, 1], [10, 0.7]),
  ],
  [
    plan('critical care', 'intensive-care', 0.25, [1.5, 1], [3, 0.7]),
    plan('limited activity', 'indoor-pen', 0.08, [7, 1], [16, 0.6]),
    plan('unlimited activity', 'outdoor-pen', 0.03, [9, 1], [20, 0.5]),
  ],
  [
    plan('quarantine', 'isolation', 0.1, [3, 0.9], [8, 0.4]),
    plan('limited activity', 'outdoor-pen', 0.06, [8, 1], [18, 0.6]),
    plan('unlimited activity', 'flight-aviary', 0.04, [8, 1], [15, 0.7]),
  ],
]
export const HOUSINGS = [
  'intensive-care',
  'isolation',
  'hospital-cage',
  'indoor-pen',
  'outdoor-pen',
  'flight-aviary',
] as const satisfies readonly HousingType[]

/** Animals a year that the centres entered of a group, in the whole network. */
const YEARLY = [2000, 1500, 1100, 900, 700, 600, 500, 400, 300, 250, 200, 150]
export const MONTH_SHARES = ALL_SPECIES_SHAPE.shares
/** What was entered of young that come together; other months bring one at a time. */
export const ENTERED_SIZES = [0.7, 0.2, 0.1]
/** May to August, of every other group. */
export const isYoung = (group: number, day: number) => {
  const { month } = dateOf(day)
  return group % 2 === 1 && month >= 5 && month <= 8
}

export type Size = { readonly centres: number; readonly groups: number }
/** 12 x 6 = 72 cells. */
export const WORLD: Size = { centres: 12, groups: 12 }

export type TrueStage = {
  readonly stage: CareStage
  readonly housing: HousingType
  readonly plan: StageTruth
  readonly truth: StageTruth
}

/**
 * `meanOn`: arrivals expected on a day in a season as usual; days scatter by a gamma of shape `theta`, seasons by one of
 * variance `seasonVariance`. `sizesOn(day)[b]`: chance of b + 1 at once. `entered`: shares of the centres as they said;
 * `shares[quarter]`: as they are.
 */
export type TrueGroup = {
  readonly name: string
  readonly condition: string
  readonly stages: readonly TrueStage[]
  readonly yearly: number
  readonly entered: readonly number[]
  readonly shares: readonly (readonly number[])[]
  readonly sizesOn: (day: number) => readonly number[]
  readonly meanOn: (day: number) => number
  readonly theta: number
  readonly seasonVariance: number
}
export type TrueWorld = { readonly asOf: number; readonly size: Size; readonly groups: readonly TrueGroup[] }

const FIRST_TODAY = 20_500

/** Draws a network whose records are read on some day of the year. */
export function drawWorld(size: Size, seed: number): TrueWorld {
  const draw = xoshiro(seed)
  const asOf = FIRST_TODAY + Math.floor(365 * draw())
  const laws = drawLaws(draw)
  const groups = Array.from({ length: size.groups }, (_, g) => drawGroup(g, size, asOf, laws, draw))
  return { asOf, size, groups }
}

/** As the engine's own prior of how plans are out: stage .24, condition .25, cell .2 make .4 together; odds .75. */
const SDS = [
  [0.24, 0.433],
  [0.25, 0.433],
  [0.2, 0.433],
] as const
const SPREADS = [0.7, 1, 1, 1.4]

type Away = { readonly stretch: number; readonly odds: number; readonly spread: number }
/** What a stage of a condition is out by, the same for everybody who asks for it again. */
type Laws = (stage: CareStage, condition: number) => Away

function drawLaws(draw: Draw): Laws {
  const normal = normals(draw)
  const known = new Map<string, Away>()
  const remember = (key: string, make: () => Away) => {
    const away = known.get(key) ?? make()
    known.set(key, away)
    return away
  }
  return (stage, condition) =>
    remember(`${stage}|${condition}`, () => {
      const of = remember(stage, () => step({ stretch: 0, odds: 0, spread: oneSpread(draw) }, 0, normal))
      const next = step(of, 1, normal)
      return { ...next, spread: draw() < 0.8 ? of.spread : oneSpread(draw) }
    })
}

const oneSpread = (draw: Draw) => SPREADS[Math.floor(draw() * SPREADS.length)]!

function step({ stretch, odds, spread }: Away, level: 0 | 1 | 2, normal: Draw): Away {
  const [ofStretch, ofOdds] = SDS[level]
  return { stretch: stretch + ofStretch * normal(), odds: odds + ofOdds * normal(), spread }
}

function drawGroup(g: number, { centres }: Size, asOf: number, laws: Laws, draw: Draw): TrueGroup {
  const normal = normals(draw)
  const condition = g % PLANS.length
  const entered = dirichlet(
    Array.from({ length: centres }, () => 4),
    draw,
  )
  const yearlyShares = about(entered, draw)
  const sizes = about(ENTERED_SIZES, draw)
  const yearly = YEARLY[g % YEARLY.length]! * (centres / WORLD.centres)
  return {
    name: `group ${g}`,
    condition: `condition ${condition}`,
    stages: PLANS[condition]!.map(([stage, housing, of]) => {
      const away = step(laws(stage, condition), 2, normal)
      const spread = draw() < 0.8 ? away.spread : oneSpread(draw)
      return { stage, housing, plan: of, truth: changed(of, { ...away, spread }) }
    }),
    yearly,
    entered,
    shares: [0, 1, 2, 3].map(() => about(yearlyShares, draw)),
    sizesOn: day => (isYoung(g, day) ? sizes : [1]),
    meanOn: meanOf(g, yearly, asOf, normal),
    theta: 5 * Math.exp(normal()),
    seasonVariance: drawVariance(draw),
  }
}

function changed({ early, death, ready }: StageTruth, { stretch, odds, spread }: Away): StageTruth {
  const of = (early / (1 - early)) * Math.exp(odds)
  return { early: of / (1 + of), death, ready: [ready[0] * Math.exp(stretch), ready[1] * spread] }
}

/** Sds of the logs of level, trend a year, waves and weekdays; each factor is 1 in the mean. */
const SD = { level: 0.5, trend: 0.1, wave: 0.3, weekday: 0.15 }
const YEAR = 365.25

function meanOf(g: number, yearly: number, asOf: number, normal: Draw): (day: number) => number {
  const level = SD.level * normal()
  const trend = SD.trend * normal()
  const waves = Array.from({ length: 4 }, () => SD.wave * normal())
  const weekdays = Array.from({ length: 7 }, () => SD.weekday * normal())
  const meanSize = ENTERED_SIZES.reduce((sum, share, b) => sum + share * (b + 1), 0)
  return day => {
    const { year, month } = dateOf(day)
    const days = new Date(Date.UTC(year, month, 0)).getUTCDate()
    const usual = (yearly * MONTH_SHARES[month - 1]!) / days / (isYoung(g, day) ? meanSize : 1)
    const w = (2 * Math.PI * (day - Date.UTC(year, 0, 1) / 86_400_000)) / YEAR
    const ago = Math.min(0, day - asOf) / YEAR
    const [a, b, c, d] = waves as [number, number, number, number]
    const log =
      level +
      trend * ago +
      a * Math.sin(w) +
      b * Math.cos(w) +
      c * Math.sin(2 * w) +
      d * Math.cos(2 * w) +
      weekdays[(day + 3) % 7]!
    const variance = SD.level ** 2 + (SD.trend * ago) ** 2 + 2 * SD.wave ** 2 + SD.weekday ** 2
    return usual * Math.exp(log - variance / 2)
  }
}

/** Variances of a season's level and their chances, as the engine's own prior has them. */
function drawVariance(draw: Draw): number {
  const variances = [0.0025, 0.01, 0.02, 0.04, 0.08, 0.16, 0.32]
  const chances = [0.05, 0.15, 0.2, 0.25, 0.2, 0.1, 0.05]
  return variances[indexAt(chances, draw())]!
}

function dateOf(day: number): { readonly year: number; readonly month: number } {
  const date = new Date(day * 86_400_000)
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1 }
}

/** The quarter of the year that a day lies in, by the weather: 1, spring, is March to May. */
export function quarterOf(day: number): number {
  return Math.floor((dateOf(day).month % 12) / 3)
}

/** Names the season of one year that a day lies in. */
export function seasonName(day: number): string {
  const { year, month } = dateOf(day)
  return `${month === 12 ? year + 1 : year} ${quarterOf(day)}`
}

/** Where the running sum of weights passes u; the last where rounding leaves it below. */
export function indexAt(weights: readonly number[], u: number): number {
  let left = u
  for (const [i, weight] of weights.entries()) {
    left -= weight
    if (left < 0) return i
  }
  return weights.length - 1
}

/** A gamma of this shape and scale 1 (Marsaglia and Tsang 2000). */
export function gammaOf(shape: number, draw: Draw): number {
  if (shape < 1) return gammaOf(shape + 1, draw) * (1 - draw()) ** (1 / shape)
  const normal = normals(draw)
  const d = shape - 1 / 3
  const c = 1 / Math.sqrt(9 * d)
  while (true) {
    const x = normal()
    const v = (1 + c * x) ** 3
    if (v > 0 && Math.log(1 - draw()) < x * x * 0.5 + d - d * v + d * Math.log(v)) return d * v
  }
}

/** Shares about others, as if those were 20 arrivals. */
function about(shares: readonly number[], draw: Draw): number[] {
  return dirichlet(
    shares.map(share => Math.max(0.01, 20 * share)),
    draw,
  )
}

function dirichlet(shapes: readonly number[], draw: Draw): number[] {
  const parts = shapes.map(shape => gammaOf(shape, draw))
  const total = parts.reduce((a, b) => a + b, 0)
  return parts.map(part => part / total)
}
