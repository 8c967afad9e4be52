/** Stories about the heart of the database, told by plain calls of its functions, each in a transaction of its own. */
import type pg from 'pg'
import { it } from 'vitest'
import { undone } from './database.ts'
import { type Correction, type Fact, hours, NOON } from './heart.ts'

/** The heart by hand, inside one transaction that is undone. */
function worldOf(client: pg.ClientBase) {
  const one = async <T>(text: string, values: unknown[] = []): Promise<T> =>
    (await client.query(text, values)).rows[0] as T
  const open = async (at: Date) =>
    (await one<{ id: number }>('insert into entry (entered_at) values ($1) returning id', [at])).id
  return {
    one,
    all: async <T>(text: string, values: unknown[] = []) => (await client.query(text, values)).rows as T[],
    async fact(fact: Fact | Correction, at: Date = NOON): Promise<number> {
      const entry = await open(at)
      const { id } = await one<{ id: number }>('select record_keeping($1, $2) as id', [
        JSON.stringify({ ...fact, entry_id: entry }),
        at,
      ])
      await one('select close_entry($1)', [entry])
      return id
    },
    put: (casualty: number, enclosure: number, since = NOON) =>
      ({ casualty_id: casualty, since, keeper: 'centre', enclosure_id: enclosure }) as const,
    async hold(
      casualty: number,
      enclosure: number,
      place: number | null,
      starts: Date,
      ends: Date | null = null,
      expected = starts,
    ) {
      const { id } = await one<{ id: number }>(
        'select plan_hold($1, $2, $3, $4, $5, $6, $7, false, null, $8) as id',
        [casualty, enclosure, place, starts, ends, expected, hours(400), NOON],
      )
      return id
    },
    claim: (id: number) =>
      one<{ state: string; place_no: number; starts_at: Date; broken_by: number | null }>(
        'select state, place_no, starts_at, broken_by from claim where id = $1',
        [id],
      ),
    stays: (casualty: number) =>
      client
        .query<{ enclosure_id: number; place_no: number; starts_at: Date; ends_at: Date | null }>(
          `select enclosure_id, place_no, starts_at, ends_at from claim
            where casualty_id = $1 and kind = 'stay' and state = 'live' order by starts_at`,
          [casualty],
        )
        .then(result => result.rows),
    short: (casualty: number) =>
      client
        .query<{ because: string; starts_at: Date; ends_at: Date | null }>(
          'select because, starts_at, ends_at from short where casualty_id = $1 order by starts_at',
          [casualty],
        )
        .then(result => result.rows),
    async daysShort(until: Date): Promise<number> {
      const { days } = await one<{ days: number }>(
        `select coalesce(sum(extract(epoch from least(ends_at, $1) - starts_at)) / 86400, 0)::float8 as days
           from short where starts_at < $1`,
        [until],
      )
      return days
    },
  }
}

export type World = ReturnType<typeof worldOf>

/** A story about it, after which nothing of it is left. */
export const tell = (name: string, story: (world: World) => Promise<void>) =>
  it(name, () => undone(client => story(worldOf(client))))
