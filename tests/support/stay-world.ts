/** What stays need beside the small world of heart.ts when services are asked: a policy, a person, an entry, care plans. */
import type pg from 'pg'

export const PEOPLE_AND_POLICY = `
insert into policy (preset, kappa, omega, transfer_place_days, km_per_place_day, refusal_place_days, redirect_place_days,
  keep_advice_place_days, keep_tomorrow_place_days, keep_today_place_days, tight_chance, hold_minutes, ask_lapse_minutes, finder_days)
values ('balanced', 0.5, 1, 2, 40, 20, 5, 0.25, 0.5, 3, 0.2, 240, 30, 90);
insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x');
insert into entry (entered_at) values ('2026-06-09');
`

const ESTIMATE = {
  stage: 'limited activity',
  ready: { kind: 'length', length: { medianDays: 6, p90Days: 14 } },
  shares: { onward: 0.9, died: 0.05, euthanased: 0.04, left: 0.01 },
  died: { medianDays: 2, p90Days: 31 },
  euthanased: { medianDays: 2, p90Days: 31 },
}

/** Plans of so many stages for these animals, all in hospital cages. */
export async function givePlans(
  client: pg.PoolClient,
  animals: readonly number[],
  stages = 1,
): Promise<void> {
  await client.query(
    `with p as (insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
       select 1, animal, 1, '{p1}', 'x' from unnest($1::int[]) animal returning id)
     insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
     select id, no, 'limited activity', 'hospital-cage', $2, '{"lengths":"CP"}' from p, generate_series(1, $3) no`,
    [animals, JSON.stringify(ESTIMATE), stages],
  )
}

/** A weighing of the first stage that is not done yet. */
export async function giveWeighing(
  pool: pg.Pool,
  animal: number,
  days: { readonly due_on?: string; readonly counted_from?: string; readonly interval_days?: number },
): Promise<number> {
  const { rows } = await pool.query(
    `insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, due_on, counted_from, interval_days)
     values ($1, 1, 'weigh', 'x', 'carer', 'CP', $2, $3, $4) returning id`,
    [animal, days.due_on, days.counted_from, days.interval_days],
  )
  return rows[0].id
}
