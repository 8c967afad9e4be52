/**
 * A night on the line for tests: three coordinators, a carer of two roles, and fifty open things of every kind, made by
 * plain SQL around an instant on top of the small world of heart.ts.
 */
import type pg from 'pg'
import type { PersonActor } from '#lib/authz/actor.ts'
import { acceptLine } from '#lib/service/line.ts'
import { hours, makeWorld } from './heart.ts'

export const OPEN_THINGS = 50

const coordinator = (personId: number, name: string): PersonActor => ({
  kind: 'person',
  personId,
  name,
  roles: [{ role: 'coordinator' }],
})
export const MARIT = coordinator(1, 'Marit')
export const SOMELLA = coordinator(2, 'Somella')
export const ODO = coordinator(3, 'Odo')

const PEOPLE = `
insert into person (name, email, password_hash)
select n, lower(n) || '@example.org', 'x' from unnest(array['Marit', 'Somella', 'Odo', 'Wenna']) n;
insert into person_role (person_id, role, centre_id) values (1, 'coordinator', null), (2, 'coordinator', null), (3, 'coordinator', null),
  (4, 'carer', 1), (4, 'carer', 2);
insert into entry (entered_at, revision) values ('2026-01-01', 1);
update network set revision = 1;
`

/** 14 calls, 18 call-backs, 6 asks, 6 animals on the road, 6 holds; one call-back more belongs to Odo. */
const THINGS = `
insert into call (opened_at, opened_by, state, parked_at, facts)
select $1::timestamptz - n * interval '17 minutes', case when n % 5 = 0 then null else 1 end,
       case when n % 2 = 0 then 'parked' else 'open' end,
       case when n % 2 = 0 then $1::timestamptz end,
       jsonb_build_object('animalTyped', 'Animal ' || n, 'whereTyped', 'Bay ' || n)
  from generate_series(1, 14) n;
insert into call_back (call_id, due_at, owner_id, what)
select 1 + n % 14, $1::timestamptz + (n - 6) * interval '20 minutes', 1, 'Promise ' || n from generate_series(1, 18) n;
insert into call_back (call_id, due_at, owner_id, what) values (1, $1, 3, 'Odo rings himself');
insert into ask (casualty_id, centre_id, state, put_at, lapses_at)
select n, 1 + n % 2, 'put', $1::timestamptz - interval '3 minutes', $1::timestamptz + n * interval '1 minute'
  from generate_series(1, 6) n;
`

/** The whole of it anew, Marit on the line since six hours and for one more. */
export async function beginNight(pool: pg.Pool, now: Date): Promise<void> {
  const client = await pool.connect()
  try {
    // What was recorded can not be taken out again; for a new night the triggers that keep it stand aside.
    await client.query('set session_replication_role = replica')
    await client.query(
      `truncate network, policy, company, species_group, centre, practice, driver, arrival, person, entry, line_turn,
         line_offer, call, call_back, ask, audit restart identity cascade`,
    )
    await client.query('set session_replication_role = origin')
    await makeWorld(client)
    await makeNight(client, now)
  } finally {
    client.release()
  }
  await acceptLine(MARIT, { turnId: '', untilAt: hours(1, now).toISOString() }, hours(-6, now))
}

async function makeNight(client: pg.ClientBase, now: Date): Promise<void> {
  await client.query(PEOPLE)
  for (const statement of THINGS.split(';\n').filter(text => text.trim() !== '')) {
    await client.query(statement, statement.includes('$1') ? [now] : [])
  }
  const since = new Date(now.getTime() - 3_600_000)
  const facts = [
    // One animal of each arrival, so that none shares a line.
    ...[2, 4, 6, 8, 10, 12].map((casualty_id, n) => ({
      casualty_id,
      ...(n % 2 === 0 ? { keeper: 'finder' } : { keeper: 'driver', driver_id: 1 }),
    })),
    ...[14, 16, 18, 20, 22, 24].map(casualty_id => ({ casualty_id, keeper: 'practice', practice_id: 1 })),
  ]
  await client.query('select record_keepings($1, $2)', [
    JSON.stringify(facts.map(fact => ({ entry_id: 1, since, ...fact }))),
    now,
  ])
  for (const [nth, casualty] of [14, 16, 18, 20, 22, 24, 2, 4].entries()) {
    await client.query(
      `insert into enclosure (room_id, centre_id, name, housing_type, size_rank, width_m, length_m, height_m, walking_order)
       values (4, 2, 'Night ' || $1, 'hospital-cage', 3, 1, 1, 1, 50)`,
      [nth],
    )
    await client.query(
      `insert into stocking select enclosure.id, company_slug, 1 from enclosure, casualty where enclosure.name = 'Night ' || $1 and casualty.id = $2`,
      [nth, casualty],
    )
    const after = (minutes: number) => new Date(now.getTime() + minutes * 60_000)
    await client.query(
      `select plan_hold($1, (select id from enclosure where name = 'Night ' || $2), 1, $3, null, $4, $5, false, null, $6)`,
      [casualty, nth, now, after(60 + nth), after(120 + nth), now],
    )
  }
}
