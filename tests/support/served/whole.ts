/** What must be there after a kill, and what must not: asked of the records alone, past the program. */
import type pg from 'pg'
import type { Kind } from './log.ts'

const one = 'unnest($1::text[]) key'
const left = "split_part(key, '|', 1)"
const right = "split_part(key, '|', 2)"

/** The keys that the records know, each in full and once. */
const THERE: Record<Kind, string> = {
  'call taken': `select key from ${one} where exists (select from call where id = key::int)`,
  // Words drawn later sort later: what was typed on since is no loss.
  'sheet kept': `select key from ${one} where exists
    (select from call where id = ${left}::int and facts ->> 'notes' >= ${right} collate "C")`,
  'facts kept': `select key from ${one} where exists (select from call where id = ${left}::int
     and facts ->> 'animalTyped' = ${right} and facts ->> 'whereTyped' <> '' and facts ->> 'wrongTyped' <> '')`,
  'option taken': `select key from ${one} where exists
    (select from decision d join call c on c.id = d.call_id where c.id = key::int and c.state <> 'open')`,
  'arrival recorded': `select key from ${one} where exists
    (select from keeping where casualty_id = key::int and keeper = 'centre')`,
  'outcome recorded': `select key from ${one} where exists
    (select from keeping where casualty_id = key::int and outcome = 'transferred out')`,
  'practice asked': `select key from ${one} where exists (select from ask where id = key::int and practice_id is not null)`,
  'answer recorded': `select key from ${one} where exists
    (select from ask where id = ${left}::int and state = 'no' and reason = ${right} and answered_at is not null)`,
  note: `select key from ${one} where (select count(*) from note where words = key) = 1`,
  weight: `select key from ${one} where
    (select count(*) from weight where casualty_id = ${left}::int and grams = ${right}::float) = 1`,
  'call-back promised': `select key from ${one} where (select count(*) from call_back where what = key) = 1`,
  'call-back made': `select key from ${one} where
    (select count(*) from call_back where said = key and done_at is not null) = 1`,
}

/** Which of these the records hold. */
export async function findThere(
  client: pg.ClientBase,
  kind: Kind,
  keys: readonly string[],
): Promise<Set<string>> {
  const { rows } = await client.query<{ key: string }>(THERE[kind], [keys])
  return new Set(rows.map(row => row.key))
}

/** Each counts what a transaction that stopped half way would leave. */
export const HALF: Readonly<Record<string, string>> = {
  'arrival without casualty': `arrival a where not exists (select from casualty where arrival_id = a.id)`,
  'arrival of a call without its decision': `arrival a where call_id is not null
    and not exists (select from decision where arrival_id = a.id)`,
  'casualty without keeper': `casualty c where not exists
    (select from whereabouts where casualty_id = c.id and until is null)`,
  'casualty without plan': `casualty c where not exists (select from casualty_plan where casualty_id = c.id)`,
  'casualty never identified': `casualty c where not exists (select from identification where casualty_id = c.id)`,
  'plan without stages': `casualty_plan p where not exists
    (select from casualty_stage where casualty_plan_id = p.id)`,
  'hold without decision': `claim h join casualty c on c.id = h.casualty_id where h.kind = 'hold'
    and not exists (select from decision where arrival_id = c.arrival_id)`,
  'placed by a decision and not held': `decision d, jsonb_array_elements(d.options -> 'options') o
    where o ->> 'key' = d.taken_key and jsonb_array_length(o -> 'placesTonight') > 0 and not exists
    (select from claim h join casualty c on c.id = h.casualty_id where h.kind = 'hold' and c.arrival_id = d.arrival_id)`,
  'entry without revision': `entry where revision is null`,
  'entry without audit row': `entry e where not exists
    (select from audit where at = e.entered_at and person_id is not distinct from e.entered_by)`,
  'call closed without decision': `call c where state = 'closed'
    and not exists (select from decision where call_id = c.id)`,
  'decision on a call still open': `decision d join call c on c.id = d.call_id where c.state = 'open'`,
  'call-back on a call not put aside': `call_back b join call c on c.id = b.call_id
    where c.state = 'open' and b.done_at is null`,
  'counter behind the entries': `network where revision < (select max(revision) from entry)`,
  'whereabouts that no fact gives': `(select keeping_id, casualty_id, since, until from whereabouts except
    select id, casualty_id, since, until from keeping_span) as w`,
  'fact that no whereabouts show': `(select id, casualty_id, since, until from keeping_span
    where until is null or until > since except
    select keeping_id, casualty_id, since, until from whereabouts) as w`,
}

/** How many there are of one of them. */
export async function countOne(client: pg.ClientBase, name: string): Promise<number> {
  const { rows } = await client.query<{ n: number }>(`select count(*)::int as n from ${HALF[name]}`)
  return rows[0]?.n ?? 0
}

/** How many of each there are. */
export async function countHalf(client: pg.ClientBase): Promise<ReadonlyMap<string, number>> {
  const counts = new Map<string, number>()
  for (const name of Object.keys(HALF)) counts.set(name, await countOne(client, name))
  return counts
}

/** Enclosures that a fact was recorded of since an entry, with those that are settled together with them. */
export async function enclosuresSince(client: pg.ClientBase, entryId: number): Promise<number[]> {
  const { rows } = await client.query<{ id: number }>(
    `select distinct u as id from keeping, unnest(unit_of(enclosure_id)) u
      where entry_id > $1 and enclosure_id is not null`,
    [entryId],
  )
  return rows.map(row => row.id)
}

/**
 * Claims as they stand, and after forgetting all but the promises and working them out again, that are not the same.
 * Inside a transaction that the caller rolls back.
 */
export async function claimsThatDiffer(
  client: pg.ClientBase,
  enclosures: readonly number[],
): Promise<number> {
  const of = [enclosures]
  await client.query('select settle($1::int[], now(), now())', of)
  const { rows: stood } = await client.query<{ line: string }>(CLAIMS, of)
  await client.query(
    `delete from claim where state = 'live' and kind <> 'hold' and enclosure_id = any ($1)`,
    of,
  )
  await client.query(`select settle($1::int[], '-infinity', now())`, of)
  const { rows: rebuilt } = await client.query<{ line: string }>(CLAIMS, of)
  const before = new Set(stood.map(row => row.line))
  const after = new Set(rebuilt.map(row => row.line))
  return (
    [...before].filter(line => !after.has(line)).length + [...after].filter(line => !before.has(line)).length
  )
}

/** Who has a proper place when, whatever its number. */
const CLAIMS = `select concat_ws(' ', casualty_id, enclosure_id, range_agg(tstzrange(starts_at, least(ends_at, now())))) as line
  from claim where state = 'live' and kind = 'stay' and starts_at < now() and enclosure_id = any ($1)
 group by casualty_id, enclosure_id`
