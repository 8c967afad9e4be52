/**
 * The one command: from a bare clone to a demo that people can sign in to. A second start reuses everything.
 * `--fresh` starts over; `--no-serve` does all but serve. DATABASE_URL takes that server instead of our own.
 */
import { randomBytes } from 'node:crypto'
import { accessSync, constants, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { atEnd, endAll, ending, endOnSignals } from './boot/child.mjs'
import { install } from './boot/install.mjs'
import { endSurvivors, enter, openLedger, survivors } from './boot/ledger.mjs'
import { complain, Halt, say, seconds, step } from './boot/say.mjs'

const FIRST_PORT = 3000

const root = fileURLToPath(new URL('..', import.meta.url))
const data = path.join(root, '.data')
const logs = path.join(data, 'logs')
const ledger = path.join(data, 'running.json')
const isFresh = process.argv.includes('--fresh')
const isServed = !process.argv.includes('--no-serve')

async function main() {
  const since = performance.now()
  prepareFolder()
  const earlier = survivors(ledger).find(entry => entry.what === 'demo')
  if (earlier !== undefined) throw new Halt(alreadyRunning(earlier))
  const ended = await endSurvivors(ledger)
  if (ended > 0) say(`Ended ${ended} left over from a start that was killed.`)
  openLedger(ledger)
  atEnd(() => rmSync(ledger, { force: true }))
  enter(process.pid, 'demo')
  await install(root, logs)

  const { build, generateClient } = await import('./boot/build.mjs')
  await step('Generating the database client', async note => {
    if (!(await generateClient(root, logs))) note('as before')
  })
  const databaseUrl = await prepareDatabase()
  await step('Building for production', async note => {
    if (!(await build(root, logs))) note('as before')
  })
  if (!isServed) return
  const { serve } = await import('./boot/web.mjs')
  const web = await step('Starting the web server', () =>
    serve(root, logs, FIRST_PORT, environment(databaseUrl)),
  )
  enter(process.pid, 'demo', { url: web.url })
  const { startWorker } = await import('./boot/worker.mjs')
  startWorker(root, logs, environment(databaseUrl))
  await greet(web.url, since)
  await web.exited
  if (!ending()) throw new Halt(`The web server has ended by itself; see ${web.log}.`)
  await new Promise(() => {})
}

function prepareFolder() {
  try {
    mkdirSync(data, { recursive: true, mode: 0o755 })
    accessSync(data, constants.W_OK)
    accessSync(root, constants.W_OK)
  } catch {
    throw new Halt(`${data} can't be written to: was it made by another user?`)
  }
}

/** @param {{ pid: number, url?: string }} earlier */
function alreadyRunning({ pid, url }) {
  return url === undefined
    ? `Another start of this clone is under way (process ${pid}).`
    : `The demo is running already: ${url} (process ${pid}; end it with Ctrl-C there).`
}

/** Finds or starts the server, and leaves a migrated and filled database on it. */
async function prepareDatabase() {
  const database = await import('./boot/database.mjs')
  const url = process.env['DATABASE_URL'] || (await startOwnServer())
  if (process.env['DATABASE_URL'] && isFresh) {
    await step('Emptying the demo database', () => database.emptyDemo(url))
  }
  if (await database.emptyHalfFilled(url)) say('Emptied a database whose filling was interrupted.')
  await step('Migrating', () => database.migrateDatabase(root, url, logs))
  await step('Filling with the invented coast', async note => {
    const whose = await database.whoseDatabase(url)
    if (whose === 'empty') return database.fillDatabase(root, logs, environment(url))
    note(whose === 'ours' ? 'as before' : 'it holds a network that is not the demo, left as it is')
  })
  return url
}

async function startOwnServer() {
  const { findHome } = await import('./boot/postgres-home.mjs')
  const { removeCluster, startPostgres } = await import('./boot/postgres.mjs')
  const { createDatabase } = await import('./boot/database.mjs')
  const home = findHome(root, data)
  if (isFresh) await step('Removing the earlier demo', () => removeCluster(home))
  return step('Starting PostgreSQL', async note => {
    const server = await startPostgres(home, logs)
    note(`${server.isNew ? 'new ' : ''}on port ${server.port}`)
    server.exited.then(() => {
      if (!ending()) return leave(new Halt(`PostgreSQL has ended by itself; see ${logs}/postgres.log.`))
    })
    await createDatabase(server.url('postgres'), 'roostwright')
    return server.url('roostwright')
  })
}

/** @param {string} databaseUrl */
function environment(databaseUrl) {
  return {
    DATABASE_URL: databaseUrl,
    NEXTAUTH_SECRET: sessionSecret(),
    NEXTAUTH_URL: `http://localhost:${FIRST_PORT}`,
    ROOSTWRIGHT_DEMO: '1',
    ROOSTWRIGHT_TEST: '0',
    ROOSTWRIGHT_TEST_CLOCK: '0',
  }
}

function sessionSecret() {
  const file = path.join(data, 'session-secret')
  if (isFresh && !madeSecret) rmSync(file, { force: true })
  madeSecret = true
  if (!existsSync(file)) writeFileSync(file, randomBytes(33).toString('base64'), { mode: 0o600 })
  return readFileSync(file, 'utf8')
}

let madeSecret = false

/** @param {string} url @param {number} since */
async function greet(url, since) {
  say(`\nReady after ${seconds(since)}:  ${url}\n`)
  const list = path.join(root, 'seed', 'sign-ins.json')
  if (existsSync(list)) {
    const { DEMO_PASSWORD } = await import('../lib/domain/demo-password.mjs')
    /** @type {{ role: string, name: string, email: string }[]} */
    const people = JSON.parse(readFileSync(list, 'utf8'))
    const width = (/** @type {'role' | 'name'} */ field) =>
      Math.max(...people.map(person => person[field].length))
    say(`Sign in as any of these invented people with the password  ${DEMO_PASSWORD}`)
    for (const { role, name, email } of people) {
      say(`  ${role.padEnd(width('role'))}  ${name.padEnd(width('name'))}  ${email}`)
    }
  }
  say('\nCtrl-C stops it all. `npm run demo -- --fresh` starts over.')
}

/** @param {unknown} [thrown] */
async function leave(thrown) {
  if (thrown !== undefined) complain(thrown)
  await endAll()
  process.exit(thrown === undefined ? 0 : 1)
}

endOnSignals(() => 0)
main().then(() => leave(), leave)
