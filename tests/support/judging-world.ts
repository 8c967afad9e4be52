/** A network with seven months on record, each fact entered when it happened: animals that came, were ready, moved on, died. */
import type pg from 'pg'
import { hours, makeWorld, record } from './heart.ts'
import { beginStage, LEARNING_PLAN, sayReady } from './learning-world.ts'

export const days = (n: number) => hours(24 * n)
export const ANIMALS = 20
/** Days before the test's noon on which the first came. */
export const FIRST = 215

/** Each arrives 11 days after the one before; of five, two are ready after a week, one after three, one dies, one stays. */
export async function makeJudgedWorld(client: pg.PoolClient): Promise<void> {
  await makeWorld(client)
  await client.query(LEARNING_PLAN)
  await client.query(`
    insert into plan_group (slug, class) values ('any bird', 'bird');
    insert into condition (slug, name, kind, applies_to, default_urgency, mark_urgency, quarantine)
      values ('any-reason', 'Any', 'reason', 'both', 'today', 'x', 'none');
    insert into care_plan (id, condition_slug, plan_group_slug, severity, treatment)
      values ('any-reason.any-bird.any.none', 'any-reason', 'any bird', 'any', 'none');
    insert into care_plan_stage select (jsonb_populate_record(null::care_plan_stage,
        to_jsonb(x) || '{"plan_id": "any-reason.any-bird.any.none"}')).* from care_plan_stage x where stage_no = 1;
    insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x');
    insert into centre_takes values (1, 'small-birds'), (2, 'small-birds');
    update casualty set arrival_id = id;`)
  for (let animal = 1; animal <= ANIMALS; animal++) {
    const came = -FIRST + 11 * (animal - 1)
    await client.query('update arrival set at = $2 where id = $1', [animal, days(came)])
    await record(
      client,
      { casualty_id: animal, since: days(came), keeper: 'centre', centre_id: 1 + (animal % 2) },
      days(came),
    )
    await beginStage(client, animal, days(came))
    const end = came + (animal % 5 < 2 ? 7 : 21)
    if (end >= 0) continue
    if (animal % 5 < 3) await sayReady(client, animal, days(end))
    if (animal % 5 === 3)
      await record(
        client,
        { casualty_id: animal, since: days(end), keeper: 'nobody', outcome: 'died' },
        days(end),
      )
  }
}
