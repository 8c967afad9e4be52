/**
 * The suites: what each runs, and what it needs first.
 */
import { rmSync } from 'node:fs'
import path from 'node:path'
import { start } from '../../seed/boot/child.mjs'
import { countPlaywright, countVitest } from './count.mjs'
import { playwrightFailures, vitestFailures } from './failures.mjs'

/** @typedef {import('./count.mjs').Count & { failures: string[] }} Found */

/** How long a suite may take: a test that never yields can't be ended by its own runner. */
const MINUTES_MAX = { unit: 6, architecture: 4, types: 4, db: 25, served: 20, e2e: 30 }
/** A hundred kills and the like. */
const MINUTES_MAX_FULL = 60

export const SUITES = Object.keys(MINUTES_MAX)

/**
 * @param {string} root @param {string} suite @param {NodeJS.ProcessEnv} env @param {string[]} filters
 * @returns {Promise<Found>}
 */
export async function runSuite(root, suite, env, filters) {
  const output = path.join(root, 'tests', 'output')
  const report = path.join(output, `${suite}.json`)
  rmSync(report, { force: true })
  const isBrowser = suite === 'e2e'
  const args = isBrowser
    ? ['node_modules/@playwright/test/cli.js', 'test', '-c', 'tests/playwright.config.ts', ...filters]
    : [
        'node_modules/vitest/vitest.mjs',
        'run',
        ...['-c', 'tests/vitest.config.ts', '--project', `${suite}*`],
        ...['--reporter=dot', '--reporter=json', `--outputFile.json=${report}`],
        ...filters,
      ]
  const running = start(process.execPath, args, {
    what: suite,
    log: path.join(output, `${suite}.log`),
    cwd: root,
    // Colours are ten times as long as the dots they colour, and nobody sees them in a file.
    env: process.stdout.isTTY ? env : { ...env, NO_COLOR: '1' },
    show: true,
  })
  const minutes =
    env['ROOSTWRIGHT_FULL'] === '1'
      ? MINUTES_MAX_FULL
      : MINUTES_MAX[/** @type {keyof typeof MINUTES_MAX} */ (suite)]
  let isLate = false
  const deadline = setTimeout(() => {
    isLate = true
    running.stop()
  }, minutes * 60_000)
  const status = await running.exited
  clearTimeout(deadline)
  if (isLate) return { passed: 0, failed: 1, why: `it had not ended after ${minutes} minutes`, failures: [] }
  return isBrowser
    ? { ...countPlaywright(report, status === 0), failures: playwrightFailures(report) }
    : { ...countVitest(report, status === 0), failures: vitestFailures(report, root) }
}
