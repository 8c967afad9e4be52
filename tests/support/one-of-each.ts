/**
 * A row in every table that a rule watches, on top of the small world of heart.ts: what the breaking of each rule
 * starts from.
 */
import type pg from 'pg'

const ROWS = `
insert into policy (preset, kappa, omega, transfer_place_days, km_per_place_day, refusal_place_days, redirect_place_days,
  keep_advice_place_days, keep_tomorrow_place_days, keep_today_place_days, tight_chance, hold_minutes, ask_lapse_minutes, finder_days)
values ('balanced', 0.5, 1, 2, 40, 20, 5, 0.25, 0.5, 3, 0.2, 240, 30, 90);
insert into reference_key (kind, key, meaning, mark) values ('company', 'thrushes', 'x', 'CP');
insert into condition (slug, name, kind, applies_to, default_urgency, mark_urgency, quarantine)
values ('wing-fracture', 'Broken wing', 'finding', 'bird', 'today', 'CP', 'none');
insert into plan_group (slug, class) values ('any-bird', 'bird');
insert into care_plan values ('p1', 'wing-fracture', 'any-bird', 'any', 'none');
insert into care_plan_stage (plan_id, stage_no, stage, housing_type, ready_median_days, ready_p90_days, gate_opens, gate_closes,
  gate_min_days, gate_lag_median_days, gate_lag_p90_days, died_median_days, died_p90_days, goes_on_means, goes_on, died, euthanased, left_care)
values ('p1', 1, 'critical care', 'hospital-cage', 2, 5, '03-01', '04-01', 0, 1, 3, 2, 31, 'next stage', 0.7, 0.1, 0.1, 0.1);
insert into care_plan_gate (plan_id, stage, check_slug, what, interval_days, anchor, who, mark)
values ('p1', 'critical care', 'weigh', 'weight', 3, 'stage start', 'carer', 'CP');
insert into gazetteer_place (name, kind, latitude, longitude) values ('Mill', 'landmark', 54, -3);
insert into centre_hours (centre_id, weekday, opens_minute, closes_minute) values (1, 1, 480, 1080);
insert into practice_hours (practice_id, weekday, opens_minute, closes_minute) values (1, 1, 480, 1080);
insert into driver_hours (driver_id, weekday, opens_minute, closes_minute) values (1, 1, 480, 1080);
insert into standing_offer values (1, 'small-birds', 2);
insert into travel values (1, 2, 20, 30);
insert into year_arrivals (centre_id, group_slug, animals_per_year, month_shares, event_sizes, mark)
values (1, 'small-birds', 100, array_fill(1/12.0::float8, array[12]), '{1}', 'CP');
insert into outside_place (name, phone, takes_words, hours_words, latitude, longitude) values ('Outside', '307', 'x', 'y', 54, -3);
insert into person (name, email, password_hash) values ('One', 'one@example.org', 'x');
insert into person_role (person_id, role, centre_id) values (1, 'carer', 1);
insert into sign_in (person_id, at, how, address, was_let_in) values (1, '2026-06-09', 'password', '203.0.113.7', true);
insert into sign_in_wait (kind, key, refused, last_at, free_at) values ('pair', 'k', 0, '2026-06-09', '2026-06-09');
insert into finder (name, expires_on) values ('F', '2026-12-01');
insert into call (opened_at, state) values ('2026-06-09', 'open');
insert into call (opened_at, state) values ('2026-06-09', 'open');
insert into call_back (call_id, due_at, owner_id, what) values (1, '2026-06-09', 1, 'x');
insert into call_pair (at, first_id, second_id, is_same) values ('2026-06-09', 1, 2, true);
insert into decision (call_id, at, kind, taken_key, options, inputs) values (1, '2026-06-09', 'admit', 'k', '[]', '{}');
insert into unmet_demand (call_id, at, kind, group_slug, animals, reason) values (1, '2026-06-09', 'advice', 'small-birds', 1, 'x');
insert into batch (arrival_id) values (1);
update casualty set batch_id = 1, member_no = 1 where id = 1;
insert into entry (entered_at, revision, device_key, reason) values ('2026-06-09', 1000, 'd1', 'words');
insert into membership (entry_id, casualty_id, kind, batch_id, member_no) values (1, 2, 'joined', 1, 2);
insert into membership (entry_id, casualty_id, kind, was_batch_id, was_member_no, supersedes) values (1, 2, 'taken-back', 1, 2, 1);
insert into identification (entry_id, casualty_id, species_slug, age) values (1, 1, 'blackbird', 'adult');
insert into identification (entry_id, casualty_id, species_slug, age, supersedes) values (1, 1, 'robin', 'adult', 1);
insert into finding (entry_id, casualty_id, condition_slug, noted_at) values (1, 1, 'wing-fracture', '2026-06-09');
insert into finding (entry_id, casualty_id, condition_slug, noted_at, is_void, supersedes) values (1, 1, 'wing-fracture', '2026-06-09', true, 1);
insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because) values (1, 1, 1, '{p1}', 'x');
insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks) values (1, 1, 'quarantine', 'isolation', '{}', '{}');
insert into stage_fact (entry_id, casualty_id, stage_no, kind, at) values (1, 1, 1, 'began', '2026-06-09');
insert into stage_fact (entry_id, casualty_id, stage_no, kind, at, supersedes) values (1, 1, 1, 'began', '2026-06-09', 1);
insert into check_due (casualty_id, stage_no, check_slug, what, who, mark, interval_days) values (1, 1, 'weigh', 'x', 'carer', 'CP', 3);
insert into surgery (entry_id, casualty_id, at, side, what) values (1, 1, '2026-06-09', 'left', 'x');
insert into surgery (entry_id, casualty_id, at, side, what, is_void, supersedes) values (1, 1, '2026-06-09', 'left', 'x', true, 1);
insert into vet_word (entry_id, casualty_id, stage_no, at, in_days, said_by) values (1, 1, 1, '2026-06-09', 14, 'x');
insert into vet_word (entry_id, casualty_id, stage_no, at, in_days, said_by, is_void, supersedes)
values (1, 1, 1, '2026-06-09', 14, 'x', true, 1);
insert into implant (surgery_id, kind) values (1, 'pin');
insert into implant_fact (entry_id, implant_id, at, how) values (1, 1, '2026-06-09', 'out');
insert into attachment (entry_id, casualty_id, kind, at, words, digest) values (1, 1, 'radiograph', '2026-06-09', 'x', repeat('0', 64));
insert into attachment (entry_id, casualty_id, kind, at, words, digest, taken_back_entry, taken_back_because)
values (1, 1, 'photograph', '2026-06-09', 'x', repeat('1', 64), 1, 'x');
insert into attachment_image values (1, 'whole', 2, 2, '\\x524946460000000057454250');
insert into weight (entry_id, casualty_id, at, grams) values (1, 1, '2026-06-09', 90);
insert into weight (entry_id, casualty_id, at, grams, is_sure, supersedes) values (1, 1, '2026-06-09', 90, true, 1);
insert into release (at, site, latitude, longitude, way, releaser) values
  ('2026-06-12', 'Wood', 54, -3, 'hard', 'Somebody'), ('2026-06-12', 'Wood', 54, -3, 'soft', 'Somebody');
insert into release_wait (entry_id, casualty_id, at, waits_for) values (1, 1, '2026-06-09', '{weather}');
insert into reference_key (kind, key, meaning, mark) values ('licence', 'only-some', 'x', 'CP');
insert into licence_holder (key, centre_id, licence_no, valid_from) values ('only-some', 2, 'x', '2020-01-01');
insert into licence_word (entry_id, casualty_id, key, at, words) values (1, 1, 'only-some', '2026-06-09', 'x');
insert into species_season (species_slug, kind, opens, closes, mark) values ('blackbird', 'migration', '04-01', '09-15', 'CP');
insert into note (casualty_id, at, words) values (1, '2026-06-09', 'words');
insert into referral (casualty_id, what, opened_at) values (1, 'x', '2026-06-09');
insert into ask (referral_id, casualty_id, practice_id, state, put_at, lapses_at, answered_at, comes_at)
values (1, 1, 1, 'yes', '2026-06-09', '2026-06-10', '2026-06-09', '2026-06-10');
insert into ask (casualty_id, centre_id, state, put_at, lapses_at, decision_id, option_key, answered_at)
values (1, 1, 'yes', '2026-06-09', '2026-06-10', 1, 'k', '2026-06-09');
insert into ask_try values (1, 1, 'Somebody', '308', null, '2026-06-09', '2026-06-10');
insert into centre_contact (centre_id, position, name, phone, from_minute, until_minute) values (1, 1, 'Somebody', '308', 480, 1080);
insert into centre_word (centre_id, kind, said_at, until) values (1, 'no-more', '2026-06-09', '2026-06-12');
insert into movement_stop (centre_id, site_state, covers_class, starts_at, ends_at, reason) values (2, 'no-movement', 'mammal', '2026-06-09', '2026-06-20', 'x');
insert into audit (at, actor_words, action, subject, subject_id, reason) values ('2026-06-09', 'x', 'a', 's', '1', 'words');
insert into erasure (finder_id, asked_at) values (1, '2026-06-09');
insert into one_time_link (token_hash, purpose, ask_id, made_at, expires_at)
  values (repeat('0', 64), 'ask', 1, '2026-06-09', '2026-06-10');
insert into transfer (casualty_id, from_centre_id, to_centre_id, reason, proposed_at, expected_at, lapses_at, ask_id)
  values (9, 1, 2, 'ready', '2026-06-09', '2026-06-10', '2026-06-11', 1);
insert into journey (from_centre_id, to_centre_id, made_at) values (1, 2, '2026-06-09');
insert into journey_animal (journey_id, casualty_id) values (1, 9);
insert into leg (journey_id, leg_no, driver_id, from_words, to_words, pick_up_at, due_at, state, has_it_at)
  values (1, 1, 1, 'North', 'South', '2026-06-09T08:00Z', '2026-06-09T09:00Z', 'on the road', '2026-06-09T08:05Z');
insert into outbox (key, to_address, subject, body, queued_at, due_at)
  values ('one', 'a@example.org', 'One', 'One', '2026-06-09', '2026-06-09');
insert into line_turn (holder_id, taken_at, until_at, how, ended_at) values
  (1, '2026-06-09T08:00Z', '2026-06-09T16:00Z', 'taken-up', '2026-06-09T15:50Z');
insert into line_turn (holder_id, taken_at, until_at, how) values (1, '2026-06-09T15:50Z', '2026-06-09T23:00Z', 'accepted');
insert into line_offer (turn_id, offered_at) values (2, '2026-06-09T22:00Z');
insert into round_entry (entry_id, centre_id, casualty_id, kind, happened_at, said, state)
  select id, 1, 1, 'weight', '2026-06-09', '{"kind":"weight","grams":90}', 'taken-back' from entry where device_key = 'd1';
with e as (insert into entry (entered_at, revision) values ('2026-06-09', 1001) returning id)
insert into round_entry (entry_id, centre_id, casualty_id, kind, happened_at, said, state, undoes)
  select id, 1, 1, 'undo', '2026-06-09', '{"kind":"undo","entryId":1}', 'stands', 1 from e;
insert into test_clock values (1, '2026-06-09');
insert into job_progress values ('x', '2026-06-10T12:00Z', '2026-06-10T12:00Z', 1, 2);
insert into learning_run (model_version, as_of, learned_at, revision, knowledge_revision, plan_weight, seed, cells, animals, inputs_digest, digest)
  values ('x', '2026-06-10', '2026-06-10T12:00Z', 1, 1, 20, 1, 1, 1, repeat('0', 64), repeat('0', 64));
insert into learned_stage select 1, 'p1|1', '{p1}', 1, 'overwintering', 'wing-fracture', 'autumn', '{}', 1, 1, 1, 0.8, 1.2, 1, 0.5,
  day, day, day, day, '{"onward":1,"died":0,"euthanased":0,"left":0}', 0, day, day, day, day, day from (values ('\\x0000000000000000'::bytea)) d (day);
insert into learned_arrivals select 1, 'small-birds', 3, 1, 1, 0.8, 1.2, 1, 5, 1, 20, '2026-09-01', 0.04, day, '{1}', '{1}', '{"winter":[],"spring":[],"summer":[],"autumn":[]}', '{"winter":[],"spring":[],"summer":[],"autumn":[]}'
  from (values ('\\x0000000000000000'::bytea)) d (day);
insert into learned_doubt select 1, '1:hospital-cage', 1, '\\x0000000000000000'::bytea;
insert into backtest (begun_at, as_of, revision, knowledge_revision, model_version, seed, history_from, origins)
  values ('2026-06-10T12:00Z', '2026-06-10', 1, 1, 'x', 1, '2026-06-01', '{2026-06-08}');
insert into backtest_origin values (1, '2026-06-08', '{"origin":20612}', '2026-06-10T12:00Z');
`

/** The facts and plans among them: casualty 1 in enclosure 7 for good, casualty 5 with a departure, a hold, a closure. */
const HEART = `
select record_keepings('[
  {"entry_id":1,"casualty_id":1,"since":"2026-06-09T08:00Z","keeper":"centre","enclosure_id":7,"place_no":1,"override_reason":"words"},
  {"entry_id":1,"casualty_id":2,"since":"2026-06-09T08:00Z","keeper":"centre","enclosure_id":8,"place_no":1}]', '2026-06-10T12:00Z');
select record_keeping('{"entry_id":1,"casualty_id":2,"since":"2026-06-09T09:00Z","keeper":"centre","enclosure_id":8,"supersedes":2}', '2026-06-10T12:00Z');
insert into move_aside (casualty_id, to_centre_id, at, reason, keeping_id) values (1, 2, '2026-06-09', 'settled here', 1);
select book_departure(1, 1, '2026-06-20T12:00Z', '2026-06-10T12:00Z');
select close_enclosure(1, 5, '2026-06-10T12:00Z', '2026-06-12T12:00Z', 'storm', '2026-06-10T12:00Z');
select plan_hold(6, 7, 2, '2026-06-11T12:00Z', '2026-06-12T12:00Z', '2026-06-11T12:00Z', '2026-06-12T00:00Z', false, null, '2026-06-10T12:00Z');
insert into room (centre_id, name, kind, walking_order, predators_apart) values (2, 'Apart', 'ward', 9, true);
insert into enclosure (room_id, centre_id, name, housing_type, size_rank, width_m, length_m, height_m, walking_order)
values (5, 2, 'A1', 'hospital-cage', 3, 1, 1, 1, 1), (5, 2, 'A2', 'hospital-cage', 3, 1, 1, 1, 2);
insert into release_animal (release_id, casualty_id) values (1, 1);
insert into release_against values (1, 'gate', 'x');
insert into check_displaced select 1, min(id), 'moved', '2026-06-11', '2026-06-12' from claim;
insert into stocking select e, c, 2 from (values (9), (10)) e (e), (values ('thrushes'), ('kestrels')) c (c);
select plan_hold(3, 9, 1, '2026-06-11T12:00Z', null, '2026-06-11T12:00Z', '2026-06-12T00:00Z', false, null, '2026-06-10T12:00Z');
`

/** Adds the rows; the world must be there. */
export async function addOneOfEach(client: pg.ClientBase): Promise<void> {
  await client.query(ROWS)
  await client.query(HEART)
}

/** SQL that inserts a copy of a table's first row with other values. */
export function copyOf(
  table: string,
  change: Readonly<Record<string, unknown>> = {},
  where = 'true',
): string {
  const json = JSON.stringify(change).replaceAll("'", "''")
  return `insert into ${table} overriding user value
    select (jsonb_populate_record(null::${table}, to_jsonb(x) || '${json}')).* from ${table} x where ${where} limit 1`
}

/** SQL that inserts a word that a closed list does not hold. */
export const known = (table: string, column: string) => copyOf(table, { [column]: 'no such thing' })

/** By name: words that are too long for a table, or missing. */
export const limits = (table: string, change: Readonly<Record<string, unknown>>) => ({
  [`${table}_within_limits`]: copyOf(table, change),
})
