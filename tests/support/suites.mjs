/**
 * The four suites: what each runs, and what it needs first.
 */
import { rmSync } from 'node:fs'
import path from 'node:path'
import { tryRun } from '../../seed/boot/child.mjs'
import { countPlaywright, countVitest } from './count.mjs'

/** @typedef {import('./count.mjs').Count} Count */

export const SUITES = ['unit', 'architecture', 'db', 'e2e']

/**
 * @param {string} root @param {string} suite @param {NodeJS.ProcessEnv} env @param {string[]} filters
 * @returns {Promise<Count>}
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
        ...['-c', 'tests/vitest.config.ts', '--project', suite],
        ...['--reporter=dot', '--reporter=json', `--outputFile.json=${report}`],
        ...filters,
      ]
  const status = await tryRun(process.execPath, args, {
    what: suite,
    log: path.join(output, `${suite}.log`),
    cwd: root,
    env,
    show: true,
  })
  return isBrowser ? countPlaywright(report, status === 0) : countVitest(report, status === 0)
}
