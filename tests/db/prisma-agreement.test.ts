import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { database } from '#tests/support/database.ts'
import { readPrismaSchema } from '#tests/support/prisma-schema.ts'

const SCHEMA = fileURLToPath(new URL('../../prisma/schema.prisma', import.meta.url))
const models = readPrismaSchema(readFileSync(SCHEMA, 'utf8'))

async function liveTables(): Promise<Record<string, string[]>> {
  const { rows } = await database.pool.query<{ table: string; column: string }>(
    `select c.relname as table,
            a.attname || ' ' || format_type(a.atttypid, a.atttypmod) || case when a.attnotnull then '' else '?' end as column
       from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
      where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and c.relname <> '_prisma_migrations'
      order by 1, 2`,
  )
  const tables: Record<string, string[]> = {}
  for (const { table, column } of rows) {
    tables[table] ??= []
    tables[table].push(column)
  }
  return tables
}

describe('prisma/schema.prisma', () => {
  it('names every table and column of the live schema, with its type and whether it may be empty', async () => {
    const written = Object.fromEntries(
      models.map(model => [
        model.table,
        model.columns.map(column => `${column.name} ${column.type}${column.isNullable ? '?' : ''}`).sort(),
      ]),
    )
    const live = await liveTables()
    expect(Object.keys(live).length).toBeGreaterThan(40)
    expect(written).toEqual(
      Object.fromEntries(Object.entries(live).map(([table, rows]) => [table, rows.sort()])),
    )
  })

  it('refers to indexes, unique rules and foreign keys by the names they have', async () => {
    const { rows } = await database.pool.query<{ name: string }>(
      `select conname as name from pg_constraint where connamespace = 'public'::regnamespace
       union select relname from pg_class where relkind = 'i' and relnamespace = 'public'::regnamespace`,
    )
    const live = new Set(rows.map(row => row.name))
    const named = models.flatMap(model => model.rules)
    expect(named.length).toBeGreaterThan(50)
    expect(named.filter(name => !live.has(name))).toEqual([])
  })
})
