/**
 * Exclusion constraints hold by GiST indexes, and no query may read by one: a scan of it that is started again within one
 * statement can mark entries of rows that stand as dead while another transaction splits the page.
 */
import type pg from 'pg'
import { expect, it } from 'vitest'
import { clone, undone } from '#tests/support/database.ts'
import { makeWorld, NOON } from '#tests/support/heart.ts'
import { connect } from '#tests/support/heart-connect.ts'

type Excluding = {
  readonly name: string
  readonly table: string
  readonly key: string
  readonly predicate: string | null
}

async function excluding(client: pg.ClientBase): Promise<readonly Excluding[]> {
  const { rows } = await client.query<Excluding>(
    `select x.indexrelid::regclass::text as name, x.indrelid::regclass::text as table, pg_get_indexdef(x.indexrelid, 1, true) as key,
            pg_get_expr(x.indpred, x.indrelid) as predicate
       from pg_index x where x.indisexclusion order by 1`,
  )
  return rows
}

/** What a query would say that wants the very rows which the constraint looks at. */
function readings({ table, key, predicate }: Excluding): readonly string[] {
  const standing = predicate?.replaceAll('constraint_only', '') ?? 'true'
  return [
    `select * from ${table} where ${standing}`,
    `select count(*) from ${table} where ${standing}`,
    `select * from ${table} where ${standing} and ${key} = (select ${key} from ${table} limit 1)`,
  ]
}

it('no plan reads by the index of an exclusion constraint, whatever else is forbidden to it', async () => {
  await undone(async client => {
    await client.query(
      'set local enable_seqscan = off; set local enable_bitmapscan = off; set local enable_sort = off',
    )
    const rules = await excluding(client)
    expect(rules.length).toBeGreaterThan(9)
    for (const rule of rules) {
      for (const reading of readings(rule)) {
        const { rows } = await client.query<{ 'QUERY PLAN': string }>(`explain ${reading}`)
        expect(rows.map(row => row['QUERY PLAN']).join('\n')).not.toContain(rule.name)
      }
    }
  })
})

/** A closure of a day on each of 600 days: every tenth, or all the others. */
const CLOSURES = `insert into claim (kind, state, enclosure_id, company_key, housing_type, starts_at, ends_at)
  select 'closure', 'live', 1, 'closed', 'cage', $2::timestamptz + n * interval '1 day', $2::timestamptz + (n + 1) * interval '1 day'
    from generate_series(1, 600) n where (n % 10 = 0) = $1`

/** Leaves the indexes of constraints alone, so that a plan would have to read by one of those. */
const DROP_OTHERS = `do $$ declare r record; begin
  for r in select x.indexrelid::regclass as name from pg_index x
            where x.indrelid = 'claim'::regclass and not x.indisexclusion and not x.indisprimary loop
    execute format('drop index %s', r.name);
  end loop;
end $$`

it('a page that another splits under a scan hides no row from its constraint', async () => {
  const url = await clone()
  const [reader, writer] = await Promise.all([connect(url), connect(url)])
  try {
    await makeWorld(writer)
    await writer.query('set synchronous_commit = on') // else what was deleted is not known as such at once
    await writer.query(DROP_OTHERS)
    await writer.query(CLOSURES, [true, NOON])
    await writer.query(`delete from claim where id % 3 <> 0`)
    await reader.query('begin')
    await reader.query(
      'set local enable_seqscan = off; set local enable_bitmapscan = off; set local enable_hashjoin = off; set local enable_mergejoin = off; set local enable_material = off',
    )
    await reader.query(
      `declare twice no scroll cursor for
         select nth, c.id from generate_series(1, 2) nth left join claim c on c.enclosure_id = (nth * 0 + 1) and c.state = 'live'`,
    )
    await reader.query('fetch 20 from twice')
    await writer.query(CLOSURES, [false, NOON])
    await reader.query('fetch all from twice')
    await reader.query('commit')
    const { rows } = await writer.query<{ stand: number }>(
      `select count(*)::int as stand from claim where state = 'live'`,
    )
    await writer.query('set enable_seqscan = off')
    const { rows: guarded } = await writer.query<{ stand: number }>(
      `select count(*)::int as stand from claim where constraint_only(state) = 'live' and enclosure_id = 1`,
    )
    expect(rows[0]?.stand).toBe(560)
    expect(guarded).toEqual(rows)
  } finally {
    await Promise.all([reader.end(), writer.end()])
  }
})
