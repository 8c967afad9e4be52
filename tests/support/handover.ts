/**
 * Fifty open things on the line of the seeded network, each with a name of its own, and their end: what was recorded
 * stays as facts (an animal was reunited, a call was closed), so that no later test meets them.
 */
import pg from 'pg'
import { surroundings } from './session.ts'

export const HANDED_OVER = { calls: 14, 'call-backs': 18, asks: 6, road: 6, holds: 6 } as const

/** How each of them is found in a list: words that no other thing has. */
export type Handover = { readonly names: readonly string[]; readonly end: () => Promise<void> }

type Ask = <T extends pg.QueryResultRow>(sql: string, values?: readonly unknown[]) => Promise<T[]>

/** Makes the fifty, owed by one coordinator who holds the line. */
export async function makeHandover(holder: string): Promise<Handover> {
  return connected(async ask => {
    const [person] = await ask<{ id: number }>('select id from person where email = $1', [holder])
    await holdLine(ask, person!.id)
    const calls = await insertCalls(ask, person!.id)
    const callBacks = await insertCallBacks(ask, person!.id, calls)
    const road = await insertAnimals(ask, HANDED_OVER.road, 'finder')
    const asks = await insertAsks(ask, road)
    const kept = await insertAnimals(ask, HANDED_OVER.holds, 'practice')
    for (const { id } of kept) await keepPlace(ask, id)
    const animals = [...road, ...kept]
    return {
      names: [
        ...calls.map(id => `Handed animal ${id}, Bay ${id}`),
        ...callBacks.map(id => `Handed promise ${id}`),
        ...road.map(({ reference }) => `The finder has ${reference}, Robin`),
        ...asks.map(({ to, reference }) => `${to} is asked about ${reference}, Robin`),
        ...kept.map(({ reference }) => `Place kept for ${reference}, Robin`),
      ],
      end: () => connected(again => endAll(again, { calls, callBacks, asks, animals, holder: person!.id })),
    }
  })
}

/** Somebody holds the line from now on, whoever held it before. */
async function holdLine(ask: Ask, personId: number): Promise<void> {
  await ask(
    `update line_offer set state = 'overtaken', settled_at = greatest(now(), offered_at) where state = 'open'`,
  )
  await ask('update line_turn set ended_at = greatest(now(), taken_at) where ended_at is null')
  await ask(
    `insert into line_turn (holder_id, taken_at, until_at, how, reason)
     values ($1, now(), now() + interval '12 hours', 'taken-over', 'A test needs it')`,
    [personId],
  )
}

async function insertCalls(ask: Ask, personId: number): Promise<number[]> {
  const rows = await ask<{ id: number }>(
    `insert into call (opened_at, opened_by, state, parked_at)
     select now() - n * interval '17 minutes', $1, case when n % 2 = 0 then 'parked' else 'open' end,
            case when n % 2 = 0 then now() end from generate_series(1, $2::int) n returning id`,
    [personId, HANDED_OVER.calls],
  )
  const ids = rows.map(({ id }) => id)
  await ask(
    `update call set facts = jsonb_build_object('animalTyped', 'Handed animal ' || id, 'whereTyped', 'Bay ' || id)
      where id = any($1)`,
    [ids],
  )
  return ids
}

async function insertCallBacks(ask: Ask, personId: number, calls: readonly number[]): Promise<number[]> {
  const rows = await ask<{ id: number }>(
    `insert into call_back (call_id, due_at, owner_id, what)
     select ($1::int[])[1 + n % cardinality($1::int[])], now() + (n - 6) * interval '20 minutes', $2, ''
       from generate_series(1, $3::int) n returning id`,
    [calls, personId, HANDED_OVER['call-backs']],
  )
  const ids = rows.map(({ id }) => id)
  await ask(`update call_back set what = 'Handed promise ' || id where id = any($1)`, [ids])
  return ids
}

type Animal = { readonly id: number; readonly reference: string }

/** Each an arrival of its own, so that none shares a line with another. */
async function insertAnimals(ask: Ask, count: number, keeper: 'finder' | 'practice'): Promise<Animal[]> {
  const animals: Animal[] = []
  for (let nth = 0; nth < count; nth++) {
    const [arrival] = await ask<{ id: number }>('insert into arrival (at) values (now()) returning id')
    const [animal] = await ask<Animal>(
      `insert into casualty (reference, given_on, arrival_id, species_slug, age, company_slug)
       select 'Handed ' || $1::int, current_date, $1, slug, 'adult', company_slug from species where slug = 'robin'
       returning id, reference`,
      [arrival!.id],
    )
    animals.push(animal!)
  }
  await keep(ask, animals, {
    keeper,
    ...(keeper === 'practice' && { practice_id: await lowest(ask, 'practice') }),
  })
  return animals
}

async function insertAsks(
  ask: Ask,
  animals: readonly Animal[],
): Promise<{ readonly id: number; readonly to: string; readonly reference: string }[]> {
  return ask(
    `with put as (
       insert into ask (casualty_id, centre_id, state, put_at, lapses_at)
       select id, $2, 'put', now(), now() + interval '6 hours' from casualty where id = any($1)
       returning id, casualty_id, centre_id)
     select put.id, ce.name as to, c.reference from put join centre ce on ce.id = put.centre_id
       join casualty c on c.id = put.casualty_id`,
    [animals.map(({ id }) => id), await lowest(ask, 'centre')],
  )
}

/** In whichever enclosure has room for it and no stop against it. */
async function keepPlace(ask: Ask, casualtyId: number): Promise<void> {
  const enclosures = await ask<{ id: number }>(
    `select e.id from enclosure e join stocking s on s.enclosure_id = e.id and s.company_slug = 'softbills-small'
      where e.is_active order by s.places desc, e.id`,
  )
  for (const { id } of enclosures) {
    try {
      await ask(
        `select plan_hold($1, $2, null, now(), null, now() + interval '2 hours', now() + interval '7 hours', false, null, now())`,
        [casualtyId, id],
      )
      return
    } catch {
      // Not for this animal: the next.
    }
  }
  throw new Error('no enclosure of the network takes another robin')
}

type Made = {
  readonly calls: readonly number[]
  readonly callBacks: readonly number[]
  readonly asks: readonly { readonly id: number }[]
  readonly animals: readonly Animal[]
  readonly holder: number
}

async function endAll(ask: Ask, { calls, callBacks, asks, animals, holder }: Made): Promise<void> {
  await ask('update call_back set done_at = now() where id = any($1)', [callBacks])
  await ask(`update call set state = 'closed', closed_at = now(), parked_at = null where id = any($1)`, [
    calls,
  ])
  await ask(`update ask set state = 'taken-back' where id = any($1) and state in ('put', 'unanswered')`, [
    asks.map(({ id }) => id),
  ])
  await keep(ask, animals, { keeper: 'nobody', outcome: 'reunited' })
  await holdLine(ask, holder)
}

/** One fact about each of them, in an entry of its own. */
async function keep(
  ask: Ask,
  animals: readonly Animal[],
  fact: Readonly<Record<string, unknown>>,
): Promise<void> {
  const [entry] = await ask<{ id: number }>('insert into entry (entered_at) values (now()) returning id')
  await ask(
    `select record_keepings((select jsonb_agg(jsonb_build_object('entry_id', $1::int, 'casualty_id', id,
       'since', now()) || $3::jsonb) from unnest($2::int[]) id), now())`,
    [entry!.id, animals.map(({ id }) => id), JSON.stringify(fact)],
  )
  await ask('select close_entry($1::int)', [entry!.id])
}

async function lowest(ask: Ask, table: 'practice' | 'centre'): Promise<number> {
  const [row] = await ask<{ id: number }>(`select min(id) as id from ${table} where is_active`)
  return row!.id
}

async function connected<T>(work: (ask: Ask) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: surroundings('DATABASE_URL') })
  await client.connect()
  try {
    return await work(async (sql, values = []) => (await client.query(sql, [...values])).rows)
  } finally {
    await client.end()
  }
}
