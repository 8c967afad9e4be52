/**
 * The road on the small world of asking: an animal at North with a place kept at South, two drivers, journeys between.
 * Everybody is invented.
 */
import type pg from 'pg'
import { z } from 'zod'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import type { DriveSaid } from '#lib/domain/road.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import { drive } from '#lib/service/drive.ts'
import { planJourney } from '#lib/service/road-plan.ts'
import { COORDINATOR, makeAskWorld, minutes, NORTH, SOUTH } from './ask-world.ts'
import { NOON } from './heart.ts'

export { COORDINATOR, minutes, NOON, NORTH, SOUTH }
export const [FIRST, SECOND] = [1, 2] as const
const ZONE = 'Europe/London'

export const typed = (at: Date) => z.encode(localDateTimeText(ZONE), at)

/** Animals in the ward of North since noon, each in a place; two drivers. */
export async function makeRoadWorld(client: pg.PoolClient, animals: number): Promise<number[]> {
  const ids = await makeAskWorld(client, animals)
  await client.query("insert into driver (name, phone) values ('Sorrel Wain', '0307')")
  await client.query(
    `select record_keepings((select jsonb_agg(jsonb_build_object('entry_id', 1, 'casualty_id', id, 'since', $2::timestamptz,
       'keeper', 'centre', 'enclosure_id', 9)) from unnest($1::int[]) id), $2)`,
    [ids, NOON],
  )
  return ids
}

/** Two legs as a form sends them: noon to 13:00, 13:00 to 14:00. */
export function twoLegs(animals: readonly number[], change: Readonly<Record<string, unknown>> = {}) {
  return {
    animals: animals.map(String),
    to: `centre:${SOUTH}`,
    legs: [
      legTyped(String(FIRST), 0, 60),
      legTyped(String(SECOND), 60, 120),
      { driver: '', fromWords: '', toWords: '', pickUpAt: '', dueAt: '' },
    ],
    ...change,
  }
}

export function legTyped(driver: string, from: number, to: number) {
  return {
    driver,
    fromWords: 'North',
    toWords: 'The lay-by',
    pickUpAt: typed(minutes(from)),
    dueAt: typed(minutes(to)),
  }
}

/** Plans the two legs; gives the journey and its legs. */
export async function planTwo(
  pool: pg.Pool,
  animals: readonly number[],
): Promise<{ journey: number; legs: readonly [number, number] }> {
  const journey = await planJourney(COORDINATOR, twoLegs(animals), NOON)
  const { rows } = await pool.query<{ id: number }>(
    'select id from leg where journey_id = $1 order by leg_no',
    [journey],
  )
  return { journey, legs: [rows[0]!.id, rows[1]!.id] }
}

/** A driver says something at so many minutes after noon. */
export function says(legId: number, say: DriveSaid['say'], at: number, reason: string | null = null) {
  return drive(demand(systemActor('test'), 'system.run'), legId, { say, reason }, minutes(at))
}
