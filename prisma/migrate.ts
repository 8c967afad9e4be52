/**
 * Brings a database to the newest migration without Prisma's engine, which can't be fetched everywhere.
 * Promise: one transaction a migration under one lock; what ran is recorded in _prisma_migrations as Prisma
 * records it, so that `prisma migrate deploy` carries on from here and the other way round.
 * Refuses a migration whose text changed after it ran, and a database with one that never finished.
 */
import { createHash, randomUUID } from 'node:crypto'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import pg from 'pg'

// The lock that Prisma's own migrate takes (from memory of its source: 72707369), so that the two exclude each other.
const LOCK = 72_707_369
const LOCK_WAIT = '60s'

const MIGRATIONS = fileURLToPath(new URL('migrations', import.meta.url))

const RECORD = `create table if not exists _prisma_migrations (
  id varchar(36) primary key not null,
  checksum varchar(64) not null,
  finished_at timestamptz,
  migration_name varchar(255) not null,
  logs text,
  rolled_back_at timestamptz,
  started_at timestamptz not null default now(),
  applied_steps_count integer not null default 0
)`

export type Migration = { readonly name: string; readonly sql: string; readonly checksum: string }

/** The migrations of a folder in the order they run; their checksums are Prisma's (SHA-256 of the file). */
export function listMigrations(folder = MIGRATIONS): Migration[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder, { withFileTypes: true })
    .filter(entry => entry.isDirectory())
    .map(entry => entry.name)
    .sort()
    .map(name => {
      const sql = readFileSync(path.join(folder, name, 'migration.sql'), 'utf8')
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') }
    })
}

/** Runs what has not run yet and returns the names. */
export async function migrate(client: pg.Client, migrations = listMigrations()): Promise<string[]> {
  await client.query(`set lock_timeout = '${LOCK_WAIT}'`)
  await client.query('select pg_advisory_lock($1)', [LOCK])
  try {
    await client.query(RECORD)
    const done = await readRecord(client)
    const waiting = migrations.filter(migration => isWaiting(migration, done))
    for (const migration of waiting) await apply(client, migration)
    return waiting.map(migration => migration.name)
  } finally {
    await client.query('select pg_advisory_unlock($1)', [LOCK])
    await client.query('reset lock_timeout')
  }
}

type Done = ReadonlyMap<string, { readonly checksum: string; readonly isFinished: boolean }>

async function readRecord(client: pg.Client): Promise<Done> {
  const { rows } = await client.query<{ name: string; checksum: string; finished: boolean }>(
    `select migration_name as name, checksum, finished_at is not null as finished
       from _prisma_migrations where rolled_back_at is null`,
  )
  return new Map(rows.map(row => [row.name, { checksum: row.checksum, isFinished: row.finished }]))
}

function isWaiting(migration: Migration, done: Done): boolean {
  const before = done.get(migration.name)
  if (before === undefined) return true
  if (!before.isFinished) {
    throw new Error(
      `Migration ${migration.name} was begun here and never finished; resolve it by hand first.`,
    )
  }
  if (before.checksum !== migration.checksum) {
    throw new Error(
      `Migration ${migration.name} was changed after it ran here; put its text back, add a new one.`,
    )
  }
  return false
}

async function apply(client: pg.Client, migration: Migration): Promise<void> {
  const startedAt = new Date()
  await client.query('begin')
  try {
    await client.query(migration.sql)
    await client.query(
      `insert into _prisma_migrations
         (id, checksum, migration_name, started_at, finished_at, applied_steps_count)
       values ($1, $2, $3, $4, clock_timestamp(), 1)`,
      [randomUUID(), migration.checksum, migration.name, startedAt],
    )
    await client.query('commit')
  } catch (cause) {
    await client.query('rollback')
    const why = cause instanceof Error ? cause.message : String(cause)
    throw new Error(`Migration ${migration.name} failed and left nothing behind: ${why}`, { cause })
  }
}

async function main(): Promise<void> {
  const connectionString = process.env['DATABASE_URL']
  if (!connectionString) throw new Error('DATABASE_URL is missing: it says which database to migrate.')
  const client = new pg.Client({ connectionString })
  await client.connect()
  try {
    const ran = await migrate(client)
    console.log(ran.length === 0 ? 'Nothing to migrate.' : `Migrated: ${ran.join(', ')}.`)
  } finally {
    await client.end()
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  main().catch((thrown: unknown) => {
    console.error(thrown instanceof Error ? thrown.message : thrown)
    process.exitCode = 1
  })
}
