/**
 * Whether the forecast is true: learned from the records of networks that a generator of its own draws, judged against what
 * is truly to come; before that against values from elsewhere and a Monte Carlo of the same model, and at last its speed. A row
 * a bar (engine, acceptance in numbers). Seeds come from the commit's hash; others may be given: `npm run verify:forecast -- 7`.
 * ROOSTWRIGHT_FULL=1 adds histories until the standard error bar of the realised rows holds.
 */
import { NAIVES } from '#lib/judge/naive.ts'
import { HORIZONS, type Judged } from '#tests/support/judged-forecast.ts'
import { judgeHistories } from './judged-histories.ts'
import { monteCarloRows } from './montecarlo.ts'
import { referenceRows } from './references.ts'
import { type Row, report, told } from './rows.ts'
import { speedRows } from './run.ts'
import { seeds } from './seeds.ts'

const isFull = process.env['ROOSTWRIGHT_FULL'] === '1'
const HISTORIES = isFull ? 60 : 20
/** Standard errors within which a realised figure lies. */
const NEAR = 2.5
const ERROR_MAX = 0.006
const SCORED = [7, 28]

type Figure = { readonly value: number; readonly error: number }

function meanOf(values: readonly number[]): Figure {
  const value = values.reduce((a, b) => a + b, 0) / values.length
  const squares = values.reduce((sum, one) => sum + (one - value) ** 2, 0)
  return { value, error: Math.sqrt(squares / (values.length - 1) / values.length) }
}

/** The sum of one by the sum of another, clustered by history (delta method). */
function ratioOf(
  all: readonly Judged[],
  over: (one: Judged) => number,
  under: (one: Judged) => number,
): Figure {
  const total = all.reduce((sum, one) => sum + under(one), 0)
  const value = all.reduce((sum, one) => sum + over(one), 0) / total
  const squares = all.reduce((sum, one) => sum + (over(one) - value * under(one)) ** 2, 0)
  return { value, error: Math.sqrt((squares * all.length) / (all.length - 1)) / total }
}

const shown = ({ value, error }: Figure) => `${value.toFixed(4)} +- ${error.toFixed(4)}`

function must(name: string, figure: Figure, bar: string, holds: boolean): Row {
  return { name, measured: shown(figure), bar, holds }
}

function rowsOf(name: string, horizon: number, all: readonly Judged[]): Row[] {
  const of = `${name}: ${horizon} days ahead`
  const mean = (figure: (one: Judged) => number) => meanOf(all.map(figure))
  const exact = mean(one => one.exact)
  const closeness = ratioOf(
    all,
    one => one.score,
    one => one.idealScore,
  )
  const isScored = SCORED.includes(horizon)
  return [
    must(`${of}: covered under the truth`, exact, '0.79 to 0.81', exact.value >= 0.79 && exact.value <= 0.81),
    realised(of, all),
    isScored
      ? must(`${of}: CRPS by that of who knows the truth`, closeness, '<= 1.05', closeness.value <= 1.05)
      : told(`${of}: CRPS by that of who knows the truth`, shown(closeness)),
    ...(horizon === 28 ? skillRows(of, all) : []),
    told(`${of}: without the doubt, covered under the truth`, shown(mean(one => one.sureExact))),
    told(`${of}: without the doubt, covered of what came`, shown(mean(one => one.sureRealised))),
    told(
      `${of}: without the doubt, CRPS by that of who knows the truth`,
      shown(
        ratioOf(
          all,
          one => one.sureScore,
          one => one.idealScore,
        ),
      ),
    ),
    told(`${of}: who knows the truth covered of what came`, shown(mean(one => one.idealRealised))),
  ]
}

function realised(of: string, all: readonly Judged[]): Row {
  const figure = meanOf(all.map(one => one.realised))
  const isNear = Math.abs(figure.value - 0.8) <= NEAR * figure.error
  const bar = `0.8 within ${NEAR} se${isFull ? `, se <= ${ERROR_MAX}` : ''}`
  return must(`${of}: covered of what came`, figure, bar, isNear && (!isFull || figure.error <= ERROR_MAX))
}

/** Against the best of the naive distributions, which had more than three years of counts to learn their spread from. */
function skillRows(of: string, all: readonly Judged[]): Row[] {
  const sums = NAIVES.map(naive => all.reduce((sum, one) => sum + one.naiveScores[naive], 0))
  const best = NAIVES[sums.indexOf(Math.min(...sums))]!
  const gain = ratioOf(
    all,
    one => one.naiveScores[best] - one.score,
    one => one.naiveScores[best],
  )
  const share = ratioOf(
    all,
    one => one.naiveScores[best] - one.score,
    one => one.naiveScores[best] - one.idealScore,
  )
  return [
    must(`${of}: CRPS below the best naive distribution (${best})`, gain, '>= 0.1', gain.value >= 0.1),
    must(`${of}: of the gain of who knows the truth`, share, '>= 0.75', share.value >= 0.75),
  ]
}

const drawn = seeds()
const everything = await judgeHistories(
  drawn.flatMap(seed => Array.from({ length: HISTORIES }, (_, i) => (seed + 7919 * i) | 0)),
)
const judged = drawn.map((seed, nth) => ({
  seed,
  all: everything.slice(nth * HISTORIES, (nth + 1) * HISTORIES),
}))
report([
  ...referenceRows(),
  ...drawn.flatMap(monteCarloRows),
  ...judged.flatMap(({ seed, all }) =>
    HORIZONS.flatMap((horizon, h) => {
      const rows = rowsOf(
        `seed ${seed}`,
        horizon,
        all.map(one => one[h]!),
      )
      // What came is told by seed and judged of all together, where the standard error can be small enough.
      return rows.map(row => (row.bar.includes('se') ? told(row.name, row.measured) : row))
    }),
  ),
  ...HORIZONS.map((horizon, h) =>
    realised(
      `${judged.length} seeds, ${everything.length} histories: ${horizon} days ahead`,
      everything.map(one => one[h]!),
    ),
  ),
  ...(await speedRows()),
])
