/**
 * The panel of the README: a waiting list on its real dates, forecast and judged by the code that judges a network.
 * As a table in Markdown, with what people are told below it.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { withSpread } from '#lib/judge/backtest.ts'
import type { Figure } from '#lib/judge/blocks.ts'
import type { Brier } from '#lib/judge/brier.ts'
import type { HorizonSummary } from '#lib/judge/summary.ts'
import { rangeOf, skillAgainst, verdictOf } from '#lib/judge/verdict.ts'
import { alikeSentence, betterSentence, heldSentence } from '#lib/words/judged.ts'
import { ORIGINS, panel } from '#tests/support/waiting-list/panel.ts'
import { BRIER_DAYS, judgedStays } from '#tests/support/waiting-list/single.ts'

const BEGIN = '<!-- The panel: npm run verify:judge -- readme -->'
const END = '<!-- The panel ends. -->'
const README = fileURLToPath(new URL('../../README.md', import.meta.url))

/** The columns: what the forecast is compared with. */
const AGAINST = [
  'same as today',
  withSpread('same as today'),
  withSpread('seasonal mean'),
  'exponential smoothing',
  'ARIMA',
]
/** What people are told in sentences, in days ahead. */
const TOLD = [1, 28]
const SERIES_WORDS = { waiting: 'waiting', operated: 'operated and living' } as const

/** The panel between its marks. */
export function panelText(): string {
  const judged = panel()
  const heads = ['count', 'days ahead', 'held, of 0.80', 'CRPS, people', ...AGAINST]
  const rows = judged.flatMap(({ series, rows }) =>
    rows.map(row => [
      SERIES_WORDS[series],
      String(row.horizon),
      figure(row.coverage, 2),
      figure(row.crps, 3),
      ...AGAINST.map(name => share(skillAgainst(row, name))),
    ]),
  )
  const told = judged.map(
    ({ series, rows }) =>
      `Number ${SERIES_WORDS[series]}: ${rows
        .filter(({ horizon }) => TOLD.includes(horizon))
        .map(toldOf)
        .join(' ')}`,
  )
  const what = `${ORIGINS.length} days, one in seven; ± is one standard error, by blocks of days. From the fifth column on: how much less CRPS than that method's, in per cent of it; below 0 it was nearer.`
  return [
    BEGIN,
    what,
    '',
    ...table(heads, rows),
    '',
    ...told.flatMap(text => [text, '']),
    SINGLE,
    '',
    ...table(
      ['stays', 'ended', 'chance of such bars', ...BRIER_DAYS.map(day => `Brier, ${day} days`)],
      singleRows(),
    ),
    '',
    END,
  ].join('\n')
}

const table = (heads: readonly string[], rows: readonly (readonly string[])[]) =>
  [heads, heads.map(() => '---'), ...rows].map(cells => `| ${cells.join(' | ')} |`)

const SINGLE =
  'Single stays, each predicted when it began: the waiting list from what was known that morning, the hospital and the other list from the half that is not judged. How likely bars as uneven as these are when predictions are right (D-calibration; a cautious figure), and the Brier score with censoring weights beside that of the one curve that fits these stays best in hindsight; 0.25 is a coin.'

function singleRows(): string[][] {
  const score = (brier: Brier) => (brier.kind === 'scored' ? brier.score.toFixed(3) : '')
  return judgedStays().map(({ name, ended, calibration, brier, hindsight }) => [
    name,
    `${ended} of ${calibration.animals}`,
    calibration.probability.toFixed(2),
    ...brier.map((one, i) => `${score(one)} (${score(hindsight[i]!)})`),
  ])
}

function toldOf(row: HorizonSummary): string {
  const { better, alike } = verdictOf(row)
  return [
    heldSentence(row.horizon, row.coverage.value, rangeOf(row.coverage)),
    betterSentence(better),
    alikeSentence(alike),
  ]
    .filter(text => text !== '')
    .join(' ')
}

function figure({ value, standardError }: Figure, digits: number): string {
  return standardError === null
    ? value.toFixed(digits)
    : `${value.toFixed(digits)} ± ${standardError.toFixed(digits)}`
}

function share(skill: Figure | null): string {
  if (skill === null) return ''
  const said = (value: number) => String(Math.round(100 * value) || 0)
  return skill.standardError === null
    ? said(skill.value)
    : `${said(skill.value)} ± ${said(skill.standardError)}`
}

const between = new RegExp(`${BEGIN}[^]*${END}`)

/** The panel as the README has it. */
export function panelInReadme(): string {
  return between.exec(readFileSync(README, 'utf8'))?.[0] ?? ''
}

/** Puts a panel in the README's place for it. */
export function writeReadme(text: string): void {
  writeFileSync(
    README,
    readFileSync(README, 'utf8').replace(between, () => text),
  )
}
