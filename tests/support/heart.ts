/**
 * A small world for tests of the heart: a network, two centres, rooms, enclosures, companies and animals, made by
 * plain SQL, and the calls of its functions.
 */
import type pg from 'pg'

export const NOON = new Date('2026-06-10T12:00:00Z')
export const hours = (n: number, from: Date = NOON): Date => new Date(from.getTime() + n * 3_600_000)

/** One centre with a ward that keeps predator and prey apart (1), an isolation (2), a yard (3), and a second centre. */
const WORLD = `
insert into network (name, line_phone, time_zone, jurisdiction, authority_name, authority_phone)
values ('Test coast', '1', 'Europe/London', 'gb', 'Office', '2');
insert into company (slug, members, preys, mark) values
  ('thrushes', 'x', 'prey', 'test'), ('seedeaters-small', 'x', 'prey', 'test'), ('kestrels', 'x', 'predator', 'test'),
  ('softbills-small', 'x', 'prey', 'test');
insert into species_group (slug, name, class, default_company, housing, stock, stock_mark, minutes, minutes_mark, temperament)
values ('small-birds', 'Small birds', 'bird', 'thrushes', '{}', '{}', 't', '{}', 't', '');
insert into species_group (slug, name, class, default_company, housing, stock, stock_mark, minutes, minutes_mark, temperament, is_high_risk_influenza)
values ('falcons', 'Falcons', 'bird', 'kestrels', '{}', '{}', 't', '{}', 't', '', true);
insert into species (slug, common_name, class, group_slug, mass_mark, size_rank, adult_alone, company_slug, preys, is_imprint_risk)
values ('blackbird', 'Blackbird', 'bird', 'small-birds', 't', 2, 'no', 'thrushes', 'prey', false),
  ('song-thrush', 'Song thrush', 'bird', 'small-birds', 't', 2, 'no', 'thrushes', 'prey', false),
  ('sparrow', 'Sparrow', 'bird', 'small-birds', 't', 1, 'no', 'seedeaters-small', 'prey', false),
  ('robin', 'Robin', 'bird', 'small-birds', 't', 1, 'yes', 'softbills-small', 'prey', true),
  ('kestrel', 'Kestrel', 'bird', 'falcons', 't', 3, 'no', 'kestrels', 'predator', true);
insert into centre (name, phone, latitude, longitude, night_door) values ('North', '303', 54, -3, 'staffed'), ('South', '304', 53, -3, 'shut');
insert into room (centre_id, name, kind, walking_order, predators_apart) values
  (1, 'Ward', 'ward', 1, true), (1, 'Isolation', 'isolation', 2, false), (1, 'Yard', 'outdoors', 3, false), (2, 'Ward', 'ward', 1, false);
insert into enclosure (room_id, centre_id, name, housing_type, size_rank, width_m, length_m, height_m, turnaround_min, dries_after, walking_order)
select r, case when r = 4 then 2 else 1 end, 'E' || n, t, 3, 1, 1, 1, m, d, n
  from (values (1, 1, 'hospital-cage', 60, 'each'), (2, 1, 'hospital-cage', 0, 'company'), (3, 1, 'hospital-cage', 30, 'company'),
               (4, 2, 'isolation', 120, 'company'), (5, 3, 'flight-aviary', 120, 'company'), (6, 3, 'sheltered-aviary', 60, 'each'),
               (7, 4, 'hospital-cage', 0, 'each'), (8, 4, 'hospital-cage', 60, 'company')) e (n, r, t, m, d)
 order by n;
insert into stocking (enclosure_id, company_slug, places)
select e.id, c.slug, case c.slug when 'kestrels' then 1 when 'thrushes' then 2 else 3 end
  from enclosure e, company c where not (e.id = 6 and c.slug = 'kestrels');
insert into practice (name, phone, latitude, longitude) values ('Practice', '305', 54, -3);
insert into driver (name, phone) values ('Driver', '306');
insert into arrival (at) select timestamptz '2026-06-01T08:00:00Z' from generate_series(1, 40);
`

/** Fills an empty migrated database. */
export async function makeWorld(client: pg.Client | pg.PoolClient, animals = 40): Promise<void> {
  await client.query(WORLD)
  await client.query(
    `insert into casualty (reference, given_on, arrival_id, species_slug, age, company_slug, is_alone)
     select 'test ' || n, '2026-06-01', 1 + (n / 2) % 40, s.slug, 'adult', s.company_slug, s.adult_alone = 'yes'
       from generate_series(1, $1::int) n
       join species s on s.slug = (array['blackbird','song-thrush','sparrow','kestrel','robin'])[1 + n % 5]
      order by n`,
    [animals],
  )
}

export type Fact = {
  readonly casualty_id: number
  readonly since: Date
  readonly keeper: 'finder' | 'driver' | 'practice' | 'centre' | 'nobody'
  readonly driver_id?: number
  readonly practice_id?: number
  readonly centre_id?: number
  readonly enclosure_id?: number
  readonly place_no?: number
  readonly outcome?: string
  readonly override_reason?: string
}
export type Correction = {
  readonly casualty_id: number
  readonly supersedes: number
  readonly is_void?: boolean
} & Partial<Fact>

type Queryable = Pick<pg.Client, 'query'>

/** Opens an entry, runs the work in a transaction, closes the entry last. */
export async function inTestEntry<T>(
  client: Queryable,
  at: Date,
  work: (entryId: number) => Promise<T>,
): Promise<T> {
  await client.query('begin')
  try {
    const { rows } = await client.query<{ id: number }>(
      'insert into entry (entered_at) values ($1) returning id',
      [at],
    )
    const entry = rows[0]!.id
    const result = await work(entry)
    await client.query('select close_entry($1)', [entry])
    await client.query('commit')
    return result
  } catch (thrown) {
    await client.query('rollback')
    throw thrown
  }
}

/** Records one fact in an entry of its own; returns its number. */
export async function record(client: Queryable, fact: Fact | Correction, at: Date = NOON): Promise<number> {
  return inTestEntry(client, at, async entry => {
    const { rows } = await client.query<{ id: number }>('select record_keeping($1, $2) as id', [
      JSON.stringify({ ...fact, entry_id: entry }),
      at,
    ])
    return rows[0]!.id
  })
}

export type Hold = {
  readonly casualty: number
  readonly enclosure: number
  readonly place?: number
  readonly starts: Date
  readonly ends?: Date
  readonly expected?: Date
  readonly expires: Date
  readonly isolation?: boolean
  readonly override?: string
}

/** Plans a hold; throws what the database says when it is refused. */
export async function hold(client: Queryable, h: Hold, at: Date = NOON): Promise<number> {
  return inTestEntry(client, at, async () => {
    const { rows } = await client.query<{ id: number }>(
      'select plan_hold($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) as id',
      [
        h.casualty,
        h.enclosure,
        h.place ?? null,
        h.starts,
        h.ends ?? null,
        h.expected ?? h.starts,
        h.expires,
        h.isolation ?? false,
        h.override ?? null,
        at,
      ],
    )
    return rows[0]!.id
  })
}
