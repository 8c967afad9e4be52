/**
 * Before the database suite: one template database a schema, migrated once and kept while the migrations stay as
 * they are. After it: the clones are dropped. Needs DATABASE_URL, whose user may create databases.
 */
import { createHash } from 'node:crypto'
import pg from 'pg'
import type { TestProject } from 'vitest/node'
import { listMigrations, migrate } from '#prisma/migrate.ts'

const TEMPLATE = 'roostwright_template_'
const LOCK = 19_580_612

declare module 'vitest' {
  interface ProvidedContext {
    readonly server: string
    readonly template: string
    readonly clones: string
  }
}

export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const server = process.env['DATABASE_URL']
  if (!server)
    throw new Error('The database suite needs a server: run it as `npm run db:test`, or set DATABASE_URL.')
  const { template, release } = await prepareTemplate(server)
  const clones = `roostwright_test_${process.pid}_`
  project.provide('server', server)
  project.provide('template', template)
  project.provide('clones', clones)
  return async () => {
    await dropAll(server, clones)
    await release()
  }
}

/** The number under which a run says that it clones from a template. */
function lockOf(template: string): number {
  return Number.parseInt(template.slice(TEMPLATE.length, TEMPLATE.length + 7), 16)
}

/** The address of another database on the same server. */
function addressOf(server: string, database: string): string {
  const address = new URL(server)
  address.pathname = `/${database}`
  return address.href
}

async function withClient<T>(url: string, use: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return await use(client)
  } finally {
    await client.end()
  }
}

async function prepareTemplate(
  server: string,
): Promise<{ readonly template: string; readonly release: () => Promise<void> }> {
  const migrations = listMigrations()
  if (migrations.length === 0)
    throw new Error('There is no migration: the database suite would test nothing.')
  const key = createHash('sha256')
    .update(migrations.map(migration => migration.checksum).join())
    .digest('hex')
  const template = `${TEMPLATE}${key.slice(0, 12)}`
  const client = new pg.Client({ connectionString: server })
  await client.connect()
  await client.query('select pg_advisory_lock($1)', [LOCK])
  const found = await client.query('select 1 from pg_database where datname = $1 and datistemplate', [
    template,
  ])
  if (found.rowCount === 0) await makeTemplate(client, server, template)
  await client.query('select pg_advisory_lock_shared($1, $2)', [LOCK, lockOf(template)])
  await client.query('select pg_advisory_unlock($1)', [LOCK])
  return { template, release: () => client.end() }
}

async function makeTemplate(client: pg.Client, server: string, template: string): Promise<void> {
  const { rows } = await client.query<{ name: string }>(
    'select datname as name from pg_database where datname like $1',
    [`${TEMPLATE}%`],
  )
  for (const { name } of rows) {
    const unused = await client.query<{ got: boolean }>('select pg_try_advisory_lock($1, $2) as got', [
      LOCK,
      lockOf(name),
    ])
    if (!unused.rows[0]?.got) continue // another run, of another state of the migrations, clones from it
    await client.query(`alter database ${name} is_template false`)
    await client.query(`drop database ${name} with (force)`)
    await client.query('select pg_advisory_unlock($1, $2)', [LOCK, lockOf(name)])
  }
  await client.query(`create database ${template}`)
  await withClient(addressOf(server, template), migrate)
  // Marked last, so that a template whose making was interrupted is made again.
  await client.query(`alter database ${template} allow_connections false is_template true`)
}

async function dropAll(server: string, clones: string): Promise<void> {
  await withClient(server, async client => {
    const { rows } = await client.query<{ name: string }>(
      'select datname as name from pg_database where starts_with(datname, $1)',
      [clones],
    )
    for (const { name } of rows) await client.query(`drop database if exists ${name} with (force)`)
  })
}
