/**
 * How long the demonstration takes to fill an empty, migrated database, as its first start does. The bar: a minute.
 * Takes DATABASE_URL's server, or starts one like the demo's. Exit code 1 when the bar does not hold.
 * `npm run verify:seed -- --today=2026-07-10` fills for another day: high season has twice the entries of November.
 */
import { randomBytes } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { atEnd, endAll, endOnSignals } from '#seed/boot/child.mjs'
import { connected, createDatabase, fillDatabase, migrateDatabase } from '#seed/boot/database.mjs'
import { openLedger } from '#seed/boot/ledger.mjs'
import { startPostgres } from '#seed/boot/postgres.mjs'
import { findHome } from '#seed/boot/postgres-home.mjs'
import { report } from './rows.ts'

const BAR_SECONDS = 60
const root = fileURLToPath(new URL('../..', import.meta.url))
const { today } = parseArgs({ options: { today: { type: 'string' } } }).values

async function findServer(folder: string): Promise<(database: string) => string> {
  const given = process.env['DATABASE_URL']
  if (given) return database => Object.assign(new URL(given), { pathname: `/${database}` }).href
  const home = findHome(root, folder)
  if (home.folder !== folder) atEnd(() => rmSync(home.folder, { recursive: true, force: true }))
  return (await startPostgres(home, folder)).url
}

async function measure(folder: string): Promise<void> {
  const server = await findServer(folder)
  const name = `roostwright_seed_${randomBytes(5).toString('hex')}`
  await createDatabase(server('postgres'), name)
  atEnd(() => connected(server('postgres'), client => client.query(`drop database ${name} with (force)`)))
  const env = {
    NODE_ENV: process.env.NODE_ENV,
    DATABASE_URL: server(name),
    NEXTAUTH_SECRET: randomBytes(33).toString('base64'),
    NEXTAUTH_URL: 'http://localhost:3000',
  }
  await migrateDatabase(root, env.DATABASE_URL, folder)
  const load = loadavg()[0] ?? 0
  const since = performance.now()
  await fillDatabase(root, folder, env, today)
  const seconds = (performance.now() - since) / 1000
  report([
    { name: 'load of the machine before', measured: load.toFixed(2), bar: '', holds: true },
    {
      name: `filling an empty database for ${today ?? 'today'}`,
      measured: `${seconds.toFixed(1)} s`,
      bar: `${BAR_SECONDS} s`,
      holds: seconds < BAR_SECONDS,
    },
  ])
}

endOnSignals(() => 130)
const folder = mkdtempSync(path.join(tmpdir(), 'roostwright-bench-'))
openLedger(path.join(folder, 'running.json'))
atEnd(() => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }))
try {
  await measure(folder)
} finally {
  await endAll()
}
