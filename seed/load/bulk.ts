/**
 * Puts many rows into a table in a few statements, every constraint on.
 * Promise: a column that a row leaves out takes the table's default; ids that are given are kept and the table's
 * counter goes on behind them.
 */
import type pg from 'pg'

export type Row = Readonly<Record<string, unknown>>

/** Rows in one statement: enough to be quick, small enough for one parameter. */
const CHUNK = 5000

/** Inserts rows that all have the columns of the first. */
export async function insertRows(
  client: pg.ClientBase,
  table: string,
  rows: readonly Row[],
): Promise<number> {
  const first = rows[0]
  if (first === undefined) return 0
  const columns = Object.keys(first)
    .map(column => `"${column}"`)
    .join(', ')
  for (let from = 0; from < rows.length; from += CHUNK) {
    await client.query(
      `insert into "${table}" (${columns}) overriding system value
         select ${columns} from jsonb_populate_recordset(null::"${table}", $1::jsonb)`,
      [JSON.stringify(rows.slice(from, from + CHUNK))],
    )
  }
  if (typeof first['id'] === 'number') await moveCounter(client, table)
  return rows.length
}

/**
 * Runs inserts with the foreign keys and exclusions of these tables taken off, and puts them back: looked at once for
 * all rows instead of once a row. Within one transaction nobody ever sees the tables without them. Deferred triggers, which
 * follow what happens to a journey, have nothing to follow in a history without journeys: they are silent meanwhile.
 */
export async function checkedAtOnce<T>(
  client: pg.ClientBase,
  tables: readonly string[],
  work: () => Promise<T>,
): Promise<T> {
  const { rows } = await client.query<{ off: string; on: string }>(
    `select format('alter table %s drop constraint %I', conrelid::regclass, conname) as off,
            format('alter table %s add constraint %I %s', conrelid::regclass, conname, pg_get_constraintdef(oid)) as on
       from pg_constraint where conrelid = any ($1::regclass[]) and contype in ('f', 'x')
     union all
     select format('alter table %s disable trigger %I', tgrelid::regclass, tgname),
            format('alter table %s enable trigger %I', tgrelid::regclass, tgname)
       from pg_trigger where tgrelid = any ($1::regclass[]) and tgdeferrable and not tgisinternal
      order by 1`,
    [tables],
  )
  for (const { off } of rows) await client.query(off)
  const done = await work()
  // What waits for the commit is done now: a table with something pending can't be altered.
  await client.query('set constraints all immediate')
  await client.query('set constraints all deferred')
  for (const { on } of rows) await client.query(on)
  return done
}

async function moveCounter(client: pg.ClientBase, table: string): Promise<void> {
  await client.query(
    `select setval(s.name::regclass, (select max(id) from "${table}"))
       from (select pg_get_serial_sequence('"${table}"', 'id') as name) s where s.name is not null`,
  )
}
