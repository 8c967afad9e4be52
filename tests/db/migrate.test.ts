import { createHash } from 'node:crypto'
import pg from 'pg'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listMigrations, type Migration, migrate } from '#prisma/migrate.ts'
import { clone, database } from '#tests/support/database.ts'

let client: pg.Client
let url: string

beforeEach(async () => {
  url = await clone()
  client = await open()
})

afterEach(() => client.end())

async function open(): Promise<pg.Client> {
  const opened = new pg.Client({ connectionString: url })
  await opened.connect()
  return opened
}

const migration = (name: string, sql: string): Migration => ({
  name,
  sql,
  checksum: createHash('sha256').update(sql).digest('hex'),
})

const probe = migration('9999_probe', 'create table probe (id int)')

const exists = async (table: string): Promise<boolean> =>
  (await client.query('select to_regclass($1) is not null as there', [table])).rows[0].there

test('each migration is recorded once, finished, under the checksum of its text', async () => {
  const { rows } = await database.pool.query(
    `select migration_name as name, checksum, finished_at >= started_at as finished, applied_steps_count as steps
       from _prisma_migrations order by migration_name`,
  )
  const wanted = listMigrations().map(({ name, checksum }) => ({ name, checksum, finished: true, steps: 1 }))
  expect(rows).toEqual(wanted)
  expect(wanted.length).toBeGreaterThan(0)
})

test('a second run finds nothing to do', async () => {
  expect(await migrate(client)).toEqual([])
  expect(await migrate(client, [...listMigrations(), probe])).toEqual(['9999_probe'])
  expect(await migrate(client, [...listMigrations(), probe])).toEqual([])
})

test('a migration that fails leaves nothing behind and is not recorded', async () => {
  const broken = migration('9999_broken', 'create table half (id int); select * from nowhere')
  await expect(migrate(client, [broken])).rejects.toThrow(
    'Migration 9999_broken failed and left nothing behind',
  )
  expect(await exists('half')).toBe(false)
  expect(await migrate(client, [migration('9999_broken', 'create table half (id int)')])).toEqual([
    '9999_broken',
  ])
})

test('a migration whose text changed after it ran is refused', async () => {
  await migrate(client, [probe])
  const changed = migration(probe.name, `${probe.sql};`)
  await expect(migrate(client, [changed])).rejects.toThrow('was changed after it ran here')
})

test('a migration that was begun elsewhere and never finished is refused', async () => {
  await client.query(
    "insert into _prisma_migrations (id, checksum, migration_name) values ('begun', $1, $2)",
    [probe.checksum, probe.name],
  )
  await expect(migrate(client, [probe])).rejects.toThrow('was begun here and never finished')
})

test('two that migrate at once run each migration once', async () => {
  const other = await open()
  const slow = migration('9999_slow', 'select pg_sleep(0.2); create table slow (id int)')
  const ran = await Promise.all([migrate(client, [slow]), migrate(other, [slow])])
  expect(ran.flat()).toEqual(['9999_slow'])
  await other.end()
})
