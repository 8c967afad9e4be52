/** A network that learns, beside the small world of heart.ts: a care plan, and animals with stages of it. */
import type pg from 'pg'
import { inTestEntry } from './heart.ts'

const PLAN = 'cat.any-bird.any.none'
const LENGTHS = { died: { medianDays: 2, p90Days: 9 }, euthanased: { medianDays: 3, p90Days: 9 } }
const SHARES = { onward: 0.8, died: 0.1, euthanased: 0.06, left: 0.04 }
const STAGES = [
  { stage: 'restricted activity', ready: { kind: 'length', length: { medianDays: 6, p90Days: 14 } } },
  {
    stage: 'overwintering',
    ready: {
      kind: 'date gate',
      opens: '03-20',
      closes: null,
      minDays: 0,
      lag: { medianDays: 5, p90Days: 12 },
    },
  },
] as const

/** A policy, and one plan of two stages, the second of which ends by a date. */
export const LEARNING_PLAN = `
insert into policy (preset, kappa, omega, transfer_place_days, km_per_place_day, refusal_place_days, redirect_place_days,
  keep_advice_place_days, keep_tomorrow_place_days, keep_today_place_days, tight_chance, hold_minutes, ask_lapse_minutes, finder_days)
values ('balanced', 0.5, 1, 2, 40, 20, 5, 0.25, 0.5, 3, 0.2, 240, 30, 90);
insert into condition (slug, name, kind, applies_to, default_urgency, mark_urgency, quarantine)
  values ('cat', 'Cat', 'reason', 'both', 'today', 'x', 'none');
insert into plan_group (slug, class) values ('any-bird', 'bird');
insert into care_plan (id, condition_slug, plan_group_slug, severity, treatment) values ('${PLAN}', 'cat', 'any-bird', 'any', 'none');
insert into care_plan_stage (plan_id, stage_no, stage, housing_type, ready_median_days, ready_p90_days, goes_on_means, goes_on,
    died, euthanased, left_care, died_median_days, died_p90_days, euthanased_median_days, euthanased_p90_days) values
  ('${PLAN}', 1, 'restricted activity', 'hospital-cage', 6, 14, 'x', 0.8, 0.1, 0.06, 0.04, 2, 9, 3, 9);
insert into care_plan_stage (plan_id, stage_no, stage, housing_type, gate_opens, gate_min_days, gate_lag_median_days, gate_lag_p90_days,
    goes_on_means, goes_on, died, euthanased, left_care, died_median_days, died_p90_days, euthanased_median_days, euthanased_p90_days) values
  ('${PLAN}', 2, 'overwintering', 'hospital-cage', '03-20', 0, 5, 12, 'x', 0.8, 0.1, 0.06, 0.04, 2, 9, 3, 9);
`

/** An animal gets its copy of the plan and begins the first stage. */
export async function beginStage(client: pg.PoolClient, animal: number, at: Date): Promise<void> {
  await inTestEntry(client, at, async entry => {
    const { rows } = await client.query<{ id: number }>(
      `insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
       values ($1, $2, 1, array['${PLAN}'], 'x') returning id`,
      [entry, animal],
    )
    for (const [i, stage] of STAGES.entries()) {
      await client.query(
        `insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
         values ($1, $2, $3, 'hospital-cage', $4, '{}')`,
        [rows[0]!.id, i + 1, stage.stage, JSON.stringify({ ...stage, ...LENGTHS, shares: SHARES })],
      )
    }
    await stageFact(client, entry, animal, 'began', at)
  })
}

/** It is said ready, entered at an instant that may be later. */
export async function sayReady(
  client: pg.PoolClient,
  animal: number,
  at: Date,
  enteredAt = at,
): Promise<void> {
  await inTestEntry(client, enteredAt, entry => stageFact(client, entry, animal, 'ready', at))
}

async function stageFact(client: pg.PoolClient, entry: number, animal: number, kind: string, at: Date) {
  await client.query(
    'insert into stage_fact (entry_id, casualty_id, stage_no, kind, at) values ($1, $2, 1, $3, $4)',
    [entry, animal, kind, at],
  )
}
