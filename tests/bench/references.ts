/**
 * The worst relative error against values computed elsewhere: R, scipy, exact fractions (tests/golden says which, and how).
 * One row a piece of the mathematics; the unit tests look at far more of each.
 */
import { readFileSync } from 'node:fs'
import { crpsOf } from '#lib/judge/crps.ts'
import { evidenceOfPlan } from '#lib/learn/evidence.ts'
import { meanLaw } from '#lib/learn/hazards.ts'
import { posteriorOf } from '#lib/learn/posterior.ts'
import { trialsOf } from '#lib/learn/trials.ts'
import { fitCounts } from '#lib/numerics/count-regression.ts'
import { dayTails, lognormalSigma } from '#lib/numerics/lognormal.ts'
import { addTrial } from '#lib/numerics/poisson-binomial.ts'
import { skellam } from '#lib/numerics/skellam.ts'
import { newWork } from '#lib/numerics/work.ts'
import { estimate, length, TODAY } from '#tests/support/forecasting.ts'
import { ended, unseenAfter } from '#tests/support/learning.ts'
import counts from '../golden/counts.json' with { type: 'json' }
import lengths from '../golden/lengths.json' with { type: 'json' }
import mgus2 from '../golden/mgus2.json' with { type: 'json' }
import scores from '../golden/scores.json' with { type: 'json' }
import type { Row } from './rows.ts'

const BAR = 1e-9
/** Below this a chance is told by its absolute error: its last digits are those of 1 minus the rest. */
const TINY = 1e-3

type Pair = readonly [ours: number, theirs: number]

/** Rows of the acceptance table's first line. */
export function referenceRows(): Row[] {
  return [
    row('tails of stage lengths, adaptive quadrature', lengthPairs()),
    row('sum of 600 unlike chances, exact fractions', [sixHundred()]),
    row('two ways to end, R survival survfit (mgus2)', endingPairs()),
    row('counts with a season, R MASS glm.nb', regressionPairs()),
    row('a whole-numbered error about 0, scipy skellam', skellamPairs()),
    row(
      'CRPS, exact fractions',
      scores.scores.flatMap(({ pmf, rows }) => rows.map((one): Pair => [crpsOf(pmf, one.count), one.crps])),
    ),
  ]
}

function row(name: string, pairs: readonly Pair[]): Row {
  const worst = Math.max(
    ...pairs.map(([ours, theirs]) => Math.abs(ours - theirs) / Math.max(Math.abs(theirs), TINY)),
  )
  return {
    name: `${name}: worst relative error of ${pairs.length}`,
    measured: worst.toExponential(1),
    bar: `<= ${BAR}`,
    holds: worst <= BAR,
  }
}

function lengthPairs(): Pair[] {
  return lengths.tails.map(({ median, p90, k, tail }): Pair => {
    return [dayTails(median, lognormalSigma(median, p90), k + 1)[k]!, tail]
  })
}

function sixHundred(): Pair {
  const pmf = new Float64Array(602)
  pmf[0] = 1
  let top = 0
  for (let i = 0; i < 600; i++) top = addTrial(pmf, 0, top, ((i % 97) + 1) / 101, newWork())
  let above = 0
  for (let k = top; k > 300; k--) above += pmf[k]!
  return [above, counts.sixHundredAbove300]
}

function endingPairs(): Pair[] {
  const days = 425
  const never = estimate({
    ready: { kind: 'length', length: length(90_000, 91_000) },
    shares: { onward: 1, died: 0, euthanased: 0, left: 0 },
  })
  const stays = mgus2.stays.flatMap(([month, ending, count]) => {
    const one = ending === 0 ? unseenAfter(month! + 1) : ended(ending === 1 ? 'onward' : 'died', month!)
    return new Array<typeof one>(count!).fill(one)
  })
  const law = meanLaw(posteriorOf(evidenceOfPlan(never, days), 1e-15, trialsOf(stays, TODAY, days)))
  const until = (masses: Float64Array, d: number) => masses.slice(0, d + 1).reduce((a, b) => a + b, 0)
  return mgus2.states.flatMap(([month, still, malignant, died]): Pair[] => [
    [law.staying[month!]!, still!],
    [until(law.masses.onward, month!), malignant!],
    [until(law.masses.died, month!), died!],
  ])
}

function regressionPairs(): Pair[] {
  const golden: { first: string; counts: string; all: { coefficients: number[]; logLikelihood: number } } =
    JSON.parse(readFileSync(new URL('../golden/bird-strikes.json', import.meta.url), 'utf8'))
  const rows = golden.counts.split(' ').map((_, t) => {
    const w = (2 * Math.PI * t) / 365.25
    const weekday = new Date(Date.parse(golden.first) + t * 86_400_000).getUTCDay()
    const waves = [Math.sin(w), Math.cos(w), Math.sin(2 * w), Math.cos(2 * w)]
    return [1, ...waves, t / 365.25, Number(weekday % 6 === 0)]
  })
  const fit = fitCounts({ rows, counts: golden.counts.split(' ').map(Number) })
  return [
    ...golden.all.coefficients.map((theirs, i): Pair => [fit.coefficients[i]!, theirs]),
    [fit.logLikelihood, golden.all.logLikelihood],
  ]
}

function skellamPairs(): Pair[] {
  const golden: { cases: { variance: number; pmf: number[] }[] } = JSON.parse(
    readFileSync(new URL('../golden/skellam.json', import.meta.url), 'utf8'),
  )
  return golden.cases.flatMap(({ variance, pmf }) => {
    const made = skellam(variance, newWork())
    return pmf.map((theirs, s): Pair => [made.pmf[made.reach + s] ?? 0, theirs])
  })
}
