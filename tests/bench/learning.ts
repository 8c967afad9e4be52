/**
 * How well stages are learned from records, against truths of a generator that shares nothing with the engine.
 * A row a bar. Seeds may be given: `npm run verify:learning -- 7 8`. The bars of recovery are the figures of an
 * earlier trial of the method (engine, section 1), each to be met within 2.5 standard errors.
 */
import { PLAN_PRIOR } from '#lib/learn/prior-grid.ts'
import {
  clinicError,
  type Figure,
  judgedAlone,
  judgedPooled,
  recoveryError,
  tellingItsOwn,
} from '#tests/support/judged-stages.ts'
import { type Row, report, told } from './rows.ts'

const HISTORIES = 300
const TRUTHS = 300
const WORLDS = 60
const DRAWS = 60
const seeds = process.argv.slice(2).map(Number)

const shown = ({ value, standardError }: Figure, digits: number) =>
  `${value.toFixed(digits)} +- ${standardError.toFixed(digits)}`

function recoveryRows(seed: number): Row[] {
  return [
    { n: 10, bar: 17 },
    { n: 30, bar: 12 },
    { n: 100, bar: 7.4 },
  ].flatMap(({ n, bar }) => {
    const error = recoveryError(n, HISTORIES, 'learned', seed)
    const others = (['records alone', 'plan not centred'] as const).map(method =>
      told(`seed ${seed}: beside it, ${method}`, `${shown(recoveryError(n, HISTORIES, method, seed), 1)} %`),
    )
    const name = `seed ${seed}: error of the mean stay, n = ${n}, plan 1.5 times too long`
    const holds = error.value - 2.5 * error.standardError <= bar
    return [{ name, measured: `${shown(error, 1)} %`, bar: `<= ${bar} %`, holds }, ...others]
  })
}

function coverageRow(name: string, { value, standardError }: Figure): Row {
  const holds = Math.abs(value - 0.9) <= 2.5 * standardError + 0.02
  return { name, measured: shown({ value, standardError }, 3), bar: '0.9 within 0.02', holds }
}

function bandRows(seed: number): Row[] {
  return [3, 10, 30, 100].map(n =>
    coverageRow(
      `seed ${seed}: band of 90 %, one stage, n = ${n}`,
      judgedAlone(n, TRUTHS, DRAWS, seed).coverage,
    ),
  )
}

function poolingRows(seed: number): Row[] {
  const pooled = judgedPooled(WORLDS, DRAWS, prior => prior, seed)
  const alone = judgedPooled(WORLDS, DRAWS, () => PLAN_PRIOR, seed)
  const reused = judgedPooled(WORLDS, DRAWS, tellingItsOwn, seed)
  const error = (one: Figure) => `${shown(one, 1)} %`
  return [
    coverageRow(`seed ${seed}: band of 90 %, pooled, n = 2 and 10`, pooled.coverage),
    {
      name: `seed ${seed}: error pooled, against each alone`,
      measured: error(pooled.error),
      bar: `< ${alone.error.value.toFixed(1)} %`,
      holds: pooled.error.value < alone.error.value,
    },
    {
      name: `seed ${seed}: mean square in sds pooled, against telling cells their own records again`,
      measured: pooled.squareInSds.toFixed(2),
      bar: `< ${reused.squareInSds.toFixed(2)}`,
      holds: pooled.squareInSds < reused.squareInSds,
    },
    told(
      `seed ${seed}: beside it, band of 90 % with their own records told again`,
      shown(reused.coverage, 3),
    ),
  ]
}

function clinicRows(seed: number): Row[] {
  return [10, 30, 100].map(n => {
    const { error, stretch } = clinicError(n, HISTORIES / 5, seed)
    return {
      name: `seed ${seed}: stretch told of a right plan, two clinics a week, n = ${n}`,
      measured: `${stretch.toFixed(3)}; error of the mean stay ${shown(error, 1)} %`,
      bar: '0.9 to 1.12',
      holds: stretch >= 0.9 && stretch <= 1.12,
    }
  })
}

report(
  (seeds.length > 0 ? seeds : [1]).flatMap(seed => [
    ...recoveryRows(seed),
    ...bandRows(seed),
    ...clinicRows(seed),
    ...poolingRows(seed),
  ]),
)
