/**
 * Whether the judge can be trusted: right forecasts of histories that a generator of its own draws must be called right,
 * wrong ones wrong, and standard errors must be true. A row a bar. Seeds come from the commit's hash; others may be given:
 * `npm run verify:judge -- 7 8`. With `readme` the README's panel is written anew.
 */
import { judgeOrigin, naiveRivals, withSpread } from '#lib/judge/backtest.ts'
import { brierOf } from '#lib/judge/brier.ts'
import { quantileOf } from '#lib/judge/counts.ts'
import { coverageUnder } from '#lib/judge/coverage.ts'
import { crpsOf } from '#lib/judge/crps.ts'
import { stayCalibration } from '#lib/judge/stay-calibration.ts'
import { summaryOf } from '#lib/judge/summary.ts'
import { skillAgainst } from '#lib/judge/verdict.ts'
import { xoshiro } from '#tests/montecarlo/random.ts'
import { GOLDEN_STAYS } from '#tests/support/golden-stays.ts'
import { backtestOf, drawHistory, drawPredicted, rightForecast } from '#tests/support/judged-truths.ts'
import scores from '../golden/scores.json' with { type: 'json' }
import singles from '../golden/single-stays.json' with { type: 'json' }
import { type Row, report, told } from './rows.ts'
import { seeds } from './seeds.ts'
import { panelInReadme, panelText, writeReadme } from './waiting-list.ts'

const HORIZONS = [1, 7, 28, 90]
const HISTORIES = 160
const ORIGINS = 1000
/** Standard errors within which a right figure lies: with some twenty of them a run, one run in a hundred finds one outside. */
const NEAR = 3.5

type Spread = { readonly value: number; readonly standardError: number }

function spreadOf(values: readonly number[]): Spread {
  const value = values.reduce((a, b) => a + b, 0) / values.length
  const squares = values.reduce((sum, one) => sum + (one - value) ** 2, 0)
  return { value, standardError: Math.sqrt(squares / (values.length - 1) / values.length) }
}

const shown = ({ value, standardError }: Spread, digits = 4) =>
  `${value.toFixed(digits)} +- ${standardError.toFixed(digits)}`

function referenceRows(): Row[] {
  const worst = (errors: readonly number[]) => Math.max(...errors.map(Math.abs))
  const crps = scores.scores.flatMap(({ pmf, rows }) =>
    rows.map(row => crpsOf(pmf, row.count) / row.crps - 1),
  )
  const brier = singles.at.map((day, i) => {
    const scored = brierOf(GOLDEN_STAYS, day)
    return scored.kind === 'scored' ? scored.score / singles.brier[i]! - 1 : Number.POSITIVE_INFINITY
  })
  const calibration = stayCalibration(GOLDEN_STAYS)!
  const row = (name: string, error: number, bar: number): Row => ({
    name,
    measured: error.toExponential(1),
    bar: `<= ${bar}`,
    holds: error <= bar,
  })
  return [
    row(`CRPS against exact fractions, ${crps.length} counts: worst relative error`, worst(crps), 1e-9),
    row(
      `Brier score under censoring against R's pec, ${brier.length} days: worst relative error`,
      worst(brier),
      1e-9,
    ),
    row(
      'D-calibration against R: relative error of chi-squared',
      Math.abs(calibration.chiSquared / singles.chiSquared - 1),
      1e-9,
    ),
  ]
}

function exactRow(seed: number): Row {
  const draw = xoshiro(seed)
  let worst = 0
  for (let i = 0; i < 2000; i++) {
    const weights = Array.from({ length: 1 + Math.floor(60 * draw()) }, () => draw() ** 8)
    const total = weights.reduce((a, b) => a + b, 0)
    const pmf = weights.map(weight => weight / total)
    worst = Math.max(worst, Math.abs(coverageUnder(pmf, pmf) - 0.8))
  }
  const name = `seed ${seed}: mean coverage of 2,000 distributions under themselves, off 0.8`
  return { name, measured: worst.toExponential(1), bar: '<= 1e-12', holds: worst <= 1e-12 }
}

/** Right forecasts of many histories: coverage, and whether each history's standard error is true. */
function historyRows(seed: number): Row[] {
  const summaries = Array.from({ length: HISTORIES }, (_, i) => {
    const backtest = backtestOf(drawHistory(ORIGINS + 90, seed + 7919 * i), HORIZONS)
    return summaryOf(Array.from({ length: ORIGINS }, (_, origin) => judgeOrigin(backtest, origin)))
  })
  return HORIZONS.flatMap((horizon, h) => {
    const figures = summaries.map(rows => rows[h]!.coverage)
    const coverage = spreadOf(figures.map(({ value }) => value))
    const own = figures.reduce((sum, { standardError }) => sum + standardError! ** 2, 0) / HISTORIES
    const true_ = coverage.standardError ** 2 * HISTORIES
    const ratio = Math.sqrt(own / true_)
    const bars = summaries[0]![h]!.pit.map((_, bar) => spreadOf(summaries.map(rows => rows[h]!.pit[bar]!)))
    const off = Math.max(...bars.map(bar => Math.abs(bar.value - 0.1) / bar.standardError))
    const of = `seed ${seed}: right forecasts, ${horizon} days ahead`
    return [
      {
        name: `${of}: covered, ${HISTORIES} histories`,
        measured: shown(coverage),
        bar: `0.8 within ${NEAR} se, se <= 0.006`,
        holds:
          Math.abs(coverage.value - 0.8) <= NEAR * coverage.standardError && coverage.standardError <= 0.006,
      },
      {
        name: `${of}: standard error told, by the true one`,
        measured: ratio.toFixed(3),
        bar: '0.8 to 1.2',
        holds: ratio >= 0.8 && ratio <= 1.2,
      },
      {
        name: `${of}: bars of the histogram, farthest from flat`,
        measured: `${off.toFixed(2)} se`,
        bar: '<= 4 se (ten bars)',
        holds: off <= 4,
      },
      told(`${of}: beside it, covered by the closed interval`, closedCoverage(horizon, seed).toFixed(3)),
    ]
  })
}

/** What the closed interval of quantiles would cover: more than it says. */
function closedCoverage(horizon: number, seed: number): number {
  const counts = drawHistory(20_000, seed)
  let held = 0
  for (let origin = 0; origin + horizon < counts.length; origin++) {
    const pmf = rightForecast(counts[origin]!, horizon)
    const count = counts[origin + horizon]!
    held += Number(quantileOf(pmf, 0.1) <= count && count <= quantileOf(pmf, 0.9))
  }
  return held / (counts.length - horizon)
}

/** Skill over the naive ones on five years, of right forecasts and of some that take each count for a third too many. */
function skillRows(seed: number): Row[] {
  const counts = drawHistory(5 * 364 + 90, seed)
  const rivals = naiveRivals((_, origin) => ({ from: 0, counts: counts.slice(0, origin + 1) }))
  const judged = (factor: number) => {
    const backtest = backtestOf(counts, HORIZONS, rivals, factor)
    return summaryOf(Array.from({ length: 290 }, (_, i) => judgeOrigin(backtest, 364 + 5 * i)))
  }
  const [right, wrong] = [judged(1), judged(4 / 3)]
  return HORIZONS.flatMap((horizon, h) => {
    const best = Math.min(
      ...['same as today', 'seasonal mean'].map(
        name => skillAgainst(right[h]!, withSpread(name))?.value ?? 1,
      ),
    )
    const isSeen = wrong[h]!.beatenBy.includes(withSpread('same as today'))
    const isJudged = horizon <= 7
    return [
      told(`seed ${seed}: ideal's skill over the best naive distribution, ${horizon} days`, best.toFixed(3)),
      {
        name: `seed ${seed}: counts taken for a third too many, ${horizon} days: "same as today" is nearer`,
        measured: isSeen ? 'yes' : 'no',
        bar: isJudged ? 'yes' : '',
        holds: !isJudged || isSeen,
      },
    ]
  })
}

const SETS = 400

function stayRows(seed: number): Row[] {
  const flagged = (stretch: number) =>
    Array.from({ length: SETS }, (_, i) => {
      const { stays } = drawPredicted(200, seed + 31 * i, 0.03, stretch)
      return Number(stayCalibration(stays)!.probability < 0.05)
    }).reduce((a, b) => a + b, 0) / SETS
  const right = flagged(1)
  const wrong = flagged(2)
  const most = 0.05 + NEAR * Math.sqrt((0.05 * 0.95) / SETS)
  const differences = Array.from({ length: SETS }, (_, i) => {
    const { stays, whole } = drawPredicted(200, seed + 17 * i, 0.03)
    const [part, all] = [brierOf(stays, 14), brierOf(whole, 14)]
    return part.kind === 'scored' && all.kind === 'scored' ? part.score - all.score : 0
  })
  const off = spreadOf(differences)
  return [
    {
      name: `seed ${seed}: right stays called wrong at 1 in 20, a third lost from sight`,
      measured: right.toFixed(3),
      bar: `<= ${most.toFixed(3)}`,
      holds: right <= most,
    },
    {
      name: `seed ${seed}: stays predicted twice too long called wrong at 1 in 20`,
      measured: wrong.toFixed(3),
      bar: '>= 0.9',
      holds: wrong >= 0.9,
    },
    told(`seed ${seed}: beside it, 1.4 times too long`, flagged(1.4).toFixed(3)),
    {
      name: `seed ${seed}: Brier score of day 14 under censoring, less that of the same stays seen whole`,
      measured: shown(off, 5),
      bar: `0 within ${NEAR} se`,
      holds: Math.abs(off.value) <= NEAR * off.standardError,
    },
  ]
}

const text = panelText()
if (process.argv.includes('readme')) writeReadme(text)
report([
  ...referenceRows(),
  ...seeds().flatMap(seed => [exactRow(seed), ...historyRows(seed), ...skillRows(seed), ...stayRows(seed)]),
  {
    name: "the README's panel, against what the code gives",
    measured: panelInReadme() === text ? 'the same' : 'other',
    bar: 'the same',
    holds: panelInReadme() === text,
  },
])
console.log(`\n${text}`)
