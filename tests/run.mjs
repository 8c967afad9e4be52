/**
 * Every test, from a bare clone: installs, starts a PostgreSQL of its own (or takes DATABASE_URL's), finds a browser,
 * runs the suites against the production build, and closes with one line. Leaves no process behind.
 * `node tests/run.mjs db` runs one suite; what follows `--` goes to its runner, to choose files.
 */
import { randomBytes } from 'node:crypto'
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { atEnd, endAll, ending, endOnSignals } from '../seed/boot/child.mjs'
import { install } from '../seed/boot/install.mjs'
import { endSurvivors, enter, openLedger, survivors } from '../seed/boot/ledger.mjs'
import { complain, Halt, say, seconds, step } from '../seed/boot/say.mjs'
import { runSuite, SUITES } from './support/suites.mjs'

const FIRST_PORT = 4300
const SECRET = randomBytes(33).toString('base64')
const TEMPORARY = 'roostwright-tests-'

const root = fileURLToPath(new URL('..', import.meta.url))
const output = path.join(root, 'tests', 'output')
const { suites, filters } = readArguments(process.argv.slice(2))

/** @param {string[]} given */
function readArguments(given) {
  const cut = given.indexOf('--')
  const names = cut === -1 ? given : given.slice(0, cut)
  const unknown = names.filter(name => !SUITES.includes(name))
  if (unknown.length > 0) {
    complain(new Halt(`There is no suite ${unknown.join(', ')}: choose from ${SUITES.join(', ')}.`))
    process.exit(2)
  }
  return { suites: names.length > 0 ? names : SUITES, filters: cut === -1 ? [] : given.slice(cut + 1) }
}

async function main() {
  const since = performance.now()
  mkdirSync(output, { recursive: true })
  await endEarlierRuns()
  const folder = mkdtempSync(path.join(tmpdir(), TEMPORARY))
  openLedger(path.join(folder, 'running.json'))
  atEnd(() => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }))
  enter(process.pid, 'tests')
  await install(root, output)
  const { generateClient } = await import('../seed/boot/build.mjs')
  await step('Generating the database client', async note => {
    if (!(await generateClient(root, output))) note('as before')
  })
  const needsServer = suites.includes('db') || suites.includes('e2e')
  const server = needsServer ? await findServer(folder) : undefined
  let passed = 0
  let failed = 0
  /** @type {string[]} */
  const failures = []
  for (const suite of suites) {
    const found = await runOne(suite, server)
    passed += found.passed
    failed += found.failed
    failures.push(...found.failures, ...(found.why ? [`${suite}: ${found.why}`] : []))
  }
  if (failures.length > 0) say(`\nNot passed:\n${failures.map(failure => `- ${failure}`).join('\n')}`)
  say(`All of it took ${seconds(since)}.`)
  say(`${passed} passed, ${failed} failed`)
  return failed === 0 ? 0 : 1
}

/** @param {string} suite @param {Server | undefined} server */
async function runOne(suite, server) {
  say(`\n--- ${suite}`)
  const since = performance.now()
  try {
    const env = await surroundings(suite, server)
    const found = await runSuite(root, suite, env, filters)
    say(
      `${suite}: ${found.passed} passed, ${found.failed} failed${found.why ? ` (${found.why})` : ''}, ${seconds(since)}`,
    )
    return found
  } catch (thrown) {
    // One suite that can't be run must not hide what the others found.
    complain(thrown)
    say(`${suite}: could not be run, ${seconds(since)}`)
    return { passed: 0, failed: 1, why: 'it could not be run', failures: [] }
  }
}

/** @param {string} suite @param {Server | undefined} server @returns {Promise<NodeJS.ProcessEnv>} */
async function surroundings(suite, server) {
  const env = { ...process.env, NODE_ENV: 'test' }
  if (suite === 'db') return { ...env, DATABASE_URL: server?.url('postgres') }
  if (suite === 'served') await buildOnce()
  if (suite !== 'e2e' || server === undefined) return env
  const { prepareBrowserSuite } = await import('./support/browser-suite.mjs')
  const found = await prepareBrowserSuite(root, output, server, { firstPort: FIRST_PORT, secret: SECRET })
  return { ...env, ...found }
}

async function buildOnce() {
  const { build } = await import('../seed/boot/build.mjs')
  await step('Building for production', async note => {
    if (!(await build(root, output))) note('as before')
  })
}

/** @typedef {{ url: (database: string) => string }} Server */

/** @param {string} folder @returns {Promise<Server>} */
async function findServer(folder) {
  const given = process.env['DATABASE_URL']
  if (given) return { url: database => Object.assign(new URL(given), { pathname: `/${database}` }).href }
  const { findHome } = await import('../seed/boot/postgres-home.mjs')
  const { startPostgres } = await import('../seed/boot/postgres.mjs')
  const { chmodSync } = await import('node:fs')
  chmodSync(folder, 0o755)
  return step('Starting PostgreSQL', async note => {
    const home = findHome(root, folder)
    if (home.folder !== folder)
      atEnd(() => rmSync(home.folder, { recursive: true, force: true, maxRetries: 5 }))
    const server = await startPostgres(home, output, { isThrowaway: true })
    note(`on port ${server.port}`)
    return server
  })
}

/** Runs that were killed leave a folder with a ledger; what it lists is ended, then the folder goes. */
async function endEarlierRuns() {
  for (const name of readdirSync(tmpdir()).filter(found => found.startsWith(TEMPORARY))) {
    const folder = path.join(tmpdir(), name)
    const ledger = path.join(folder, 'running.json')
    if (survivors(ledger).some(entry => entry.what === 'tests')) continue
    try {
      await endSurvivors(ledger)
      rmSync(folder, { recursive: true, force: true })
    } catch {
      // Another user's: theirs to tidy.
    }
  }
}

/** @param {number} status */
async function leave(status) {
  if (ending()) return
  await endAll()
  process.exit(status)
}

endOnSignals(() => 130)
main().then(leave, async thrown => {
  complain(thrown)
  say('0 passed, 1 failed')
  await leave(1)
})
