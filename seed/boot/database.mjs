/**
 * Makes a database ready: there, migrated, and filled once. A comment on the database says whether the demo's filling
 * was begun and whether it was finished, so that a half-filled one is emptied and somebody's own is left alone.
 */
import { existsSync } from 'node:fs'
import path from 'node:path'
import pg from 'pg'
import { run } from './child.mjs'
import { Halt } from './say.mjs'

const BEGUN = 'Roostwright demo, being filled'
const FILLED = 'Roostwright demo, filled '

/** @template T @param {string} url @param {(client: pg.Client) => Promise<T>} use @returns {Promise<T>} */
export async function connected(url, use) {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 10_000 })
  try {
    await client.connect()
  } catch (thrown) {
    const { host, pathname } = new URL(url)
    const why = thrown instanceof Error ? thrown.message || thrown.name : String(thrown)
    throw new Halt(`No connection to the database ${pathname.slice(1)} on ${host}: ${why}.`)
  }
  try {
    return await use(client)
  } finally {
    await client.end()
  }
}

/** @param {string} url of any database of the server @param {string} name */
export async function createDatabase(url, name) {
  await connected(url, async client => {
    const found = await client.query('select 1 from pg_database where datname = $1', [name])
    if (found.rowCount === 0) await client.query(`create database ${pg.escapeIdentifier(name)}`)
  })
}

/** @param {string} root @param {string} url @param {string} logs */
export async function migrateDatabase(root, url, logs) {
  await run(process.execPath, ['--import', 'tsx', 'prisma/migrate.ts'], {
    what: 'The migration',
    cwd: root,
    log: path.join(logs, 'migrate.log'),
    env: { ...process.env, DATABASE_URL: url },
  })
}

/**
 * Empties a database that the demo has filled, or began to fill; refuses any other.
 * @param {string} url
 */
export async function emptyDemo(url) {
  await connected(url, async client => {
    const mark = await readMark(client)
    if (!mark.startsWith(BEGUN) && !mark.startsWith(FILLED) && (await hasTables(client))) {
      throw new Halt('This database was not made by the demo, so --fresh leaves it alone: empty it yourself.')
    }
    await client.query('drop schema public cascade')
    await client.query('drop schema if exists pgboss cascade')
    await client.query('create schema public')
    await setMark(client, null)
  })
}

/** Empties a database whose filling was interrupted. @param {string} url */
export async function emptyHalfFilled(url) {
  const isHalf = await connected(url, async client => (await readMark(client)).startsWith(BEGUN))
  if (isHalf) await emptyDemo(url)
  return isHalf
}

/** @param {string} url @returns {Promise<'empty' | 'ours' | 'theirs'>} */
export async function whoseDatabase(url) {
  return connected(url, async client => {
    if ((await readMark(client)).startsWith(FILLED)) return 'ours'
    const { rows } = await client.query("select to_regclass('public.network') is not null as there")
    if (!rows[0]?.there) return 'empty'
    const filled = await client.query('select 1 from network limit 1')
    return filled.rowCount === 0 ? 'empty' : 'theirs'
  })
}

/** Filling makes thousands of commits, is begun anew whenever it is interrupted, and its mark is waited for. */
const NOT_AWAITED = '-c synchronous_commit=off'

/**
 * Runs seed/seed.ts, which goes through the services.
 * @param {string} root @param {string} logs @param {NodeJS.ProcessEnv & { DATABASE_URL: string }} env
 * @param {string} [today] the civil date that the filling is made for, where it is not this day
 */
export async function fillDatabase(root, logs, env, today) {
  if (!existsSync(path.join(root, 'seed', 'seed.ts')))
    throw new Halt('seed/seed.ts is missing: nothing to fill with.')
  const url = env.DATABASE_URL
  await connected(url, client => setMark(client, BEGUN))
  const day = today === undefined ? [] : [`--today=${today}`]
  // A wide nursery: the filling makes much that is dropped at once.
  const node = ['--max-semi-space-size=64', '--conditions=react-server', '--import', 'tsx']
  await run(process.execPath, [...node, 'seed/seed.ts', ...day], {
    what: 'Filling the database',
    cwd: root,
    log: path.join(logs, 'seed.log'),
    env: { ...process.env, ...env, PGOPTIONS: NOT_AWAITED },
  })
  // The mark is waited for, and with it all that was written before: a server killed until then has a half-filled one.
  await connected(url, client => setMark(client, `${FILLED}${new Date().toISOString()}`))
}

/** @param {pg.Client} client @returns {Promise<string>} */
async function readMark(client) {
  const { rows } = await client.query(
    `select coalesce(shobj_description(oid, 'pg_database'), '') as mark
       from pg_database where datname = current_database()`,
  )
  return rows[0].mark
}

/** @param {pg.Client} client @param {string | null} mark */
async function setMark(client, mark) {
  const { rows } = await client.query('select current_database() as name')
  const text = mark === null ? 'null' : pg.escapeLiteral(mark)
  await client.query(`comment on database ${pg.escapeIdentifier(rows[0].name)} is ${text}`)
}

/** @param {pg.Client} client */
async function hasTables(client) {
  const { rows } = await client.query(
    "select exists (select 1 from pg_tables where schemaname = 'public' and tablename <> '_prisma_migrations') as any",
  )
  return rows[0].any
}
