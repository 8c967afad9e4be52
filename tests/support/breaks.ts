/**
 * How to break each rule of the database: for every check, exclusion, unique rule and refusing trigger one statement
 * that nothing else refuses. Starts from one-of-each.ts.
 */
import { PICTURE_BREAKS } from './breaks-picture.ts'
import { STAY_BREAKS } from './breaks-stay.ts'
import { copyOf } from './one-of-each.ts'

const known = (table: string, column: string) => copyOf(table, { [column]: 'no such thing' })
const degrees = (table: string) => ({
  [`${table}_latitude_in_range`]: copyOf(table, { latitude: 91 }),
  [`${table}_longitude_in_range`]: copyOf(table, { longitude: -181 }),
})
const hours = (table: string) => ({
  [`${table}_hours_in_order`]: copyOf(`${table}_hours`, { closes_minute: 400 }),
  [`${table}_hours_weekday_in_range`]: copyOf(`${table}_hours`, { weekday: 8 }),
  [`${table}_hours_not_overlapping`]: copyOf(`${table}_hours`, { opens_minute: 500 }),
})
const policy = (rule: string, column: string, value: number) => ({
  [`policy_${rule}`]: copyOf('policy', { [column]: value }),
})
const limits = (table: string, change: Readonly<Record<string, unknown>>) => ({
  [`${table}_within_limits`]: copyOf(table, change),
})
const A_HOLD = "kind = 'hold'"
const A_STAY = "kind = 'stay'"
const OTHER_LINK = { token_hash: '1'.repeat(64) }
const EMPTIED = { to_address: null, subject: null, body: null }
const LATER = { starts_at: '2027-01-01T00:00Z', ends_at: '2027-01-02T00:00Z' }

const UNANSWERED = { answered_at: null, comes_at: null }
const CHAINED = 'decision_id = 1'

const CARE = {
  ask_answer_has_a_time: copyOf('ask', { answered_at: null, referral_id: null }),
  ask_is_put_to_one: copyOf('ask', { centre_id: 1, referral_id: null }),
  ask_state_known: copyOf('ask', { ...UNANSWERED, state: 'lost', referral_id: null }),
  ask_one_yes_per_referral: copyOf('ask'),
  ask_chain_names_its_option: copyOf('ask', { centre_id: 2, option_key: null }, CHAINED),
  ask_once_a_centre: copyOf('ask', { ...UNANSWERED, state: 'no', answered_at: '2026-06-10' }, CHAINED),
  ask_one_waits_per_decision: `${copyOf('ask', { ...UNANSWERED, centre_id: 2, state: 'put' }, CHAINED)};
    insert into centre (name, phone, latitude, longitude, night_door) values ('Third', '309', 53, -3, 'shut');
    ${copyOf('ask', { ...UNANSWERED, centre_id: 3, state: 'put' }, CHAINED)}`,
  ask_one_yes_per_decision: copyOf('ask', { centre_id: 2 }, CHAINED),
  ask_put_runs_out: copyOf('ask', { ...UNANSWERED, state: 'put', lapses_at: null, referral_id: null }),
  ask_time_is_a_vets_yes: copyOf('ask', {
    ...UNANSWERED,
    comes_at: '2026-06-10',
    state: 'put',
    referral_id: null,
  }),
  ask_vets_yes_has_a_time: copyOf('ask', { comes_at: null }),
  ask_within_limits: copyOf('ask', { reason: 'x'.repeat(301), referral_id: null }),
  ask_try_no_positive: copyOf('ask_try', { try_no: 0 }),
  ask_try_lapses_after_it_was_put: copyOf('ask_try', { try_no: 2, lapses_at: '2026-06-09' }),
  referral_within_limits: copyOf('referral', { what: ' ' }),
  call_closed_has_a_time: copyOf('call', { state: 'closed' }),
  call_state_known: known('call', 'state'),
  call_parked_has_a_time: copyOf('call', { state: 'parked' }),
  call_back_said_when_done: copyOf('call_back', { said: 'x' }),
  call_pair_in_order: copyOf('call_pair', { second_id: 1 }),
  casualty_age_known: copyOf('casualty', { age: 'old', given_on: '2020-01-01' }),
  casualty_member_has_a_batch: copyOf('casualty', { member_no: 3, batch_id: null, given_on: '2020-01-01' }),
  casualty_reference_not_reused_for_two_years: copyOf('casualty', { given_on: '2028-05-01' }),
  casualty_plan_version_positive: copyOf('casualty_plan', { version_no: 0 }),
  casualty_plan_version_once: copyOf('casualty_plan'),
  casualty_stage_housing_known: known('casualty_stage', 'housing_type'),
  casualty_stage_known: known('casualty_stage', 'stage'),
  casualty_stage_no_positive: copyOf('casualty_stage', { stage_no: 0 }),
  check_due_done_has_a_result: copyOf('check_due', { done_at: '2026-06-10' }),
  check_due_not_before_its_stage: copyOf('check_due', { due_on: '2026-06-10', counted_from: '2026-06-11' }),
  check_due_interval_positive: copyOf('check_due', { interval_days: 0 }),
  decision_kind_known: known('decision', 'kind'),
  departure_booked_once: copyOf('departure'),
  departure_state_known: known('departure', 'state'),
  entry_device_key_once: copyOf('entry', { revision: null }),
  entry_revision_once: copyOf('entry', { device_key: null }),
  due_told_is_one: copyOf('due_told', { id: 2 }),
  erasure_once: copyOf('erasure'),
  one_time_link_token_once: copyOf('one_time_link'),
  one_time_link_purpose_known: copyOf('one_time_link', {
    ...OTHER_LINK,
    purpose: 'door',
    ask_id: null,
  }),
  one_time_link_token_is_a_hash: copyOf('one_time_link', { token_hash: 'open sesame' }),
  one_time_link_is_for_one_thing: copyOf('one_time_link', { ...OTHER_LINK, ask_id: null }),
  one_time_link_expires_after_it_was_made: copyOf('one_time_link', {
    ...OTHER_LINK,
    expires_at: '2026-06-08',
  }),
  one_time_link_ends_once: copyOf('one_time_link', {
    ...OTHER_LINK,
    used_at: '2026-06-09',
    revoked_at: '2026-06-09',
  }),
  outbox_key_once: copyOf('outbox'),
  outbox_tries_not_negative: copyOf('outbox', { key: 'two', tries: -1 }),
  outbox_ends_once: copyOf('outbox', {
    key: 'two',
    ...EMPTIED,
    sent_at: '2026-06-09',
    given_up_at: '2026-06-09',
  }),
  outbox_ended_is_emptied: copyOf('outbox', { key: 'two', sent_at: '2026-06-09' }),
  finder_erased_is_empty: copyOf('finder', { erased_at: '2026-06-10' }),
  finding_superseded_once: copyOf('finding', {}, 'supersedes is not null'),
  identification_superseded_once: copyOf('identification', {}, 'supersedes is not null'),
  identification_age_known: known('identification', 'age'),
  keeping_keeper_known: known('keeping', 'keeper'),
  keeping_names_one_keeper: copyOf('keeping', { driver_id: 1 }),
  keeping_outcome_known: copyOf('keeping', {
    keeper: 'nobody',
    centre_id: null,
    enclosure_id: null,
    outcome: 'eaten',
  }),
  keeping_place_positive: copyOf('keeping', { place_no: 0 }),
  keeping_superseded_once: copyOf('keeping', {}, 'supersedes is not null'),
  keeping_within_its_precision: copyOf('keeping', { since_earliest: '2026-07-01' }),
  note_erased_is_empty: copyOf('note', { erased_at: '2026-06-10' }),
  note_is_about_something: copyOf('note', { casualty_id: null }),
  stage_fact_kind_known: known('stage_fact', 'kind'),
  stage_fact_superseded_once: copyOf('stage_fact', {}, 'supersedes is not null'),
  unmet_demand_animals_positive: copyOf('unmet_demand', { animals: 0 }),
  unmet_demand_kind_known: known('unmet_demand', 'kind'),
  weight_positive: copyOf('weight', { grams: 0 }),
  whereabouts_one_keeper: copyOf('whereabouts', { keeping_id: 2 }, 'casualty_id = 1'),
}

/** Each on an entry of its own, so that nothing but its rule refuses it. */
const tapped = (change: Readonly<Record<string, unknown>>, where = "kind = 'weight'") =>
  `with e as (insert into entry (entered_at) values ('2026-06-10') returning id)
   ${copyOf('round_entry', change, where).replace('.* from round_entry x', '.* from round_entry x, e').replace('to_jsonb(x) ||', "to_jsonb(x) || jsonb_build_object('entry_id', e.id) ||")}`

const OTHER_PERSON = { email: 'two@example.org' }
const ROUND = {
  person_initials_once: `update person set initials = 'ON', code_hash = 'x';
    ${copyOf('person', { ...OTHER_PERSON, initials: 'ON', code_hash: 'x' })}`,
  person_initials_shape: copyOf('person', { ...OTHER_PERSON, initials: 'on', code_hash: 'x' }),
  person_code_goes_with_initials: copyOf('person', { ...OTHER_PERSON, initials: 'ON' }),
  round_entry_kind_known: tapped({ kind: 'guessed' }),
  round_entry_state_known: tapped({ state: 'lost' }),
  round_entry_one_an_entry: copyOf('round_entry', {}, "kind = 'weight'"),
  round_entry_undone_once: tapped({}, "kind = 'undo'"),
  round_entry_undo_names_what: tapped({ undoes: 2 }),
  round_entry_is_about_an_animal: tapped({ casualty_id: null }),
  round_entry_settled_has_a_time: tapped({ state: 'set-aside' }),
}

const OTHER_MOVE = { casualty_id: 10, ask_id: null }
const MOVES = {
  transfer_state_known: copyOf('transfer', { ...OTHER_MOVE, state: 'lost', ended_at: '2026-06-09' }),
  transfer_reason_known: known('transfer', 'reason').replace(
    '"reason"',
    '"ask_id":null,"casualty_id":10,"reason"',
  ),
  transfer_of_one_ask: copyOf('transfer', { casualty_id: 10 }),
  transfer_goes_elsewhere: copyOf('transfer', { ...OTHER_MOVE, to_centre_id: 1 }),
  transfer_lapses_after_it_is_expected: copyOf('transfer', { ...OTHER_MOVE, lapses_at: '2026-06-09' }),
  transfer_ended_has_a_time: copyOf('transfer', { ...OTHER_MOVE, ended_at: '2026-06-10' }),
  transfer_one_open: copyOf('transfer', { ask_id: null }),
}

const OTHER_LEG = { leg_no: 2, state: 'planned', has_it_at: null, ended_at: null }
const ROAD = {
  journey_goes_to_one_place: copyOf('journey', { to_practice_id: 1 }),
  journey_goes_elsewhere: copyOf('journey', { from_centre_id: 2 }),
  journey_turns_back_somewhere: copyOf('journey', { from_centre_id: null, turned_at: '2026-06-09' }),
  journey_ends_after_it_was_made: copyOf('journey', { ended_at: '2026-06-08' }),
  ...limits('journey', { carry: 'x'.repeat(401) }),
  journey_animal_state_known: known('journey_animal', 'state'),
  journey_animal_one_open: `${copyOf('journey')}; ${copyOf('journey_animal', { journey_id: 2 })}`,
  leg_no_in_range: copyOf('leg', { ...OTHER_LEG, leg_no: 10 }),
  leg_state_known: copyOf('leg', { ...OTHER_LEG, state: 'lost', ended_at: '2026-06-09' }),
  leg_due_after_pick_up: copyOf('leg', { ...OTHER_LEG, due_at: '2026-06-09T08:00Z' }),
  leg_ended_has_a_time: copyOf('leg', { ...OTHER_LEG, ended_at: '2026-06-09' }),
  leg_on_the_road_since: copyOf('leg', { ...OTHER_LEG, has_it_at: '2026-06-09' }),
  leg_ended_has_no_alarm: copyOf('leg', {
    ...OTHER_LEG,
    state: 'cant',
    ended_at: '2026-06-09',
    alarm_at: '2026-06-09',
  }),
  ...limits('leg', { ...OTHER_LEG, from_words: '' }),
  leg_one_of_a_number: copyOf('leg', { ...OTHER_LEG, leg_no: 1 }),
  leg_one_on_the_road: copyOf('leg', { leg_no: 2 }),
}

const THE_ENDED = 'ended_at is not null'
const LINE = {
  line_turn_how_known: copyOf('line_turn', { how: 'found' }, THE_ENDED),
  line_turn_one_holder: copyOf('line_turn', { ended_at: null }),
  line_turn_ends_after_it_begins: copyOf('line_turn', { until_at: '2026-06-08' }, THE_ENDED),
  line_turn_ended_after_it_was_taken: copyOf('line_turn', { ended_at: '2026-06-08' }, THE_ENDED),
  line_turn_taken_over_with_a_reason: copyOf('line_turn', { how: 'taken-over' }, THE_ENDED),
  line_turn_within_limits: copyOf('line_turn', { reason: 'x'.repeat(301) }, THE_ENDED),
  line_turn_is_append_only: `update line_turn set holder_id = holder_id, until_at = '2026-06-30' where ${THE_ENDED}`,
  line_offer_state_known: copyOf('line_offer', { state: 'lost', settled_at: '2026-06-09' }),
  line_offer_one_open: copyOf('line_offer'),
  line_offer_settled_has_a_time: copyOf('line_offer', { state: 'withdrawn' }),
  line_offer_within_limits: copyOf('line_offer', {
    words: 'x'.repeat(2001),
    state: 'withdrawn',
    settled_at: '2026-06-09',
  }),
  line_offer_is_append_only: `update line_offer set words = 'other'`,
}

const PLACES = {
  claim_casualty_in_one_place: copyOf(
    'claim',
    { enclosure_id: 3, place_no: 1 },
    `${A_STAY} and casualty_id = 1`,
  ),
  claim_company_compatible: copyOf(
    'claim',
    { company_slug: 'seedeaters-small', company_key: 'seedeaters-small', casualty_id: 3, place_no: 3 },
    A_HOLD,
  ),
  claim_fits_stocking: copyOf('claim', { place_no: 9 }, A_HOLD),
  claim_hold_expires: copyOf('claim', { ...LATER, expires_at: null }, A_HOLD),
  claim_kind_known: copyOf('claim', { ...LATER, kind: 'visit' }, A_STAY),
  claim_not_empty: copyOf('claim', { ends_at: '2026-06-11T12:00Z' }, `${A_HOLD} and enclosure_id = 7`),
  claim_place_taken_once: copyOf('claim', { casualty_id: 11 }, A_HOLD),
  claim_preys_known: `alter table claim disable trigger claim_copies_its_housing; ${copyOf('claim', { ...LATER, preys: 'both' }, A_HOLD)}`,
  claim_quarantine_in_isolation: copyOf('claim', { ...LATER, needs_isolation: true }, A_HOLD),
  claim_room_apart: copyOf(
    'claim',
    { enclosure_id: 10, casualty_id: 1, company_slug: 'thrushes', company_key: 'thrushes' },
    `${A_HOLD} and enclosure_id = 9`,
  ),
  claim_shape: copyOf('claim', { ...LATER, casualty_id: null }, A_HOLD),
  claim_state_known: known('claim', 'state'),
  closure_ends_after_it_starts: copyOf('closure', { ends_at: '2026-06-01' }),
  movement_stop_class_known: known('movement_stop', 'covers_class'),
  movement_stop_ends_after_it_starts: copyOf('movement_stop', { ends_at: '2026-06-01' }),
  movement_stop_one_at_a_time: copyOf('movement_stop', { starts_at: '2026-06-15' }),
  movement_stop_state_known: known('movement_stop', 'site_state'),
  stocking_places_positive: copyOf('stocking', { places: 0 }),
}

const LATER_WORD = { said_at: '2027-01-01', until: '2027-01-02' }

const append = (table: string) => ({
  [`${table}_is_append_only`]: `update ${table} set entry_id = 1, casualty_id = 2`,
})
const KEPT = {
  audit_is_append_only: `update audit set actor_words = 'another'`,
  call_pair_is_append_only: `delete from call_pair`,
  entry_is_append_only: `delete from entry`,
  ...append('finding'),
  ...append('identification'),
  ...append('keeping'),
  ...append('stage_fact'),
}

const SETUP = {
  ...degrees('centre'),
  ...degrees('practice'),
  ...degrees('outside_place'),
  ...degrees('gazetteer_place'),
  ...hours('centre'),
  ...hours('practice'),
  ...hours('driver'),
  ...limits('centre_contact', { position: 2, name: '' }),
  centre_contact_position_positive: copyOf('centre_contact', { position: 0 }),
  centre_contact_position_once: copyOf('centre_contact'),
  centre_contact_hours_both_or_none: copyOf('centre_contact', { position: 2, until_minute: null }),
  centre_contact_hours_in_range: copyOf('centre_contact', { position: 2, until_minute: 480 }),
  centre_word_kind_known: copyOf('centre_word', { ...LATER_WORD, kind: 'maybe' }),
  centre_word_rounds_in_range: copyOf('centre_word', { ...LATER_WORD, kind: 'feeding-rounds', rounds: 97 }),
  centre_word_has_its_rounds: copyOf('centre_word', { ...LATER_WORD, rounds: 4 }),
  centre_word_ends_after_it_starts: copyOf('centre_word', { centre_id: 2, until: '2026-06-09' }),
  centre_word_lifted_after_it_was_said: copyOf('centre_word', { ...LATER_WORD, lifted_at: '2026-06-01' }),
  centre_word_one_at_a_time: copyOf('centre_word', { said_at: '2026-06-10' }),
  ...limits('gazetteer_place', { also_called: ['a;b'], name: 'x' }),
  ...limits('company', { members: ' ', slug: 'x' }),
  ...limits('species_group', { temperament_mark: '', slug: 'x', name: 'x' }),
  ...limits('species', { mass_g_low: 0, mass_g_high: 1, slug: 'x', common_name: 'x' }),
  ...limits('condition', { words: [''], slug: 'x', name: 'x' }),
  ...limits('reference_key', { clock_days: [0], key: 'x' }),
  ...limits('care_plan_gate', { offset_days: 1501 }),
  ...limits('care_plan_stage', { carer_minutes_day: 1441 }),
  ...limits('centre', { phone: '12', name: 'x' }),
  ...limits('closure', { reason: ' ' }),
  ...limits('enclosure', { width_m: 200.1, name: 'x' }),
  ...limits('movement_stop', { reason: '', starts_at: '2027-01-01', ends_at: null }),
  ...limits('outside_place', { takes_words: '', name: 'x' }),
  ...limits('person', { name: ' ', email: 'x@example.org' }),
  ...limits('practice', { note: 'x'.repeat(401), name: 'x' }),
  ...limits('driver', { area: 'x'.repeat(201) }),
  ...limits('room', { walking_order: -1, name: 'x' }),
  ...limits('standing_offer', { places: 1001 }),
  ...limits('stocking', { places: 501 }),
  ...limits('travel', { km: 2001 }),
  ...limits('year_arrivals', { animals_per_year: 100_001 }),
  ...policy('within_limits', 'finder_days', 3651),
  year_arrivals_shares_sum_to_one: copyOf('year_arrivals', { event_sizes: [0.5] }),
  care_plan_severity_known: known('care_plan', 'severity'),
  care_plan_treatment_known: known('care_plan', 'treatment'),
  care_plan_gate_anchor_known: known('care_plan_gate', 'anchor'),
  care_plan_gate_bar_known: known('care_plan_gate', 'required_for'),
  care_plan_gate_checker_known: known('care_plan_gate', 'who'),
  care_plan_gate_stage_known: known('care_plan_gate', 'stage'),
  care_plan_stage_gate_closes_after_it_opens: copyOf('care_plan_stage', {
    gate_opens: null,
    gate_lag_median_days: null,
    gate_lag_p90_days: null,
  }),
  care_plan_stage_gate_has_a_lag: copyOf('care_plan_stage', { gate_lag_p90_days: 1 }),
  care_plan_gate_interval_positive: copyOf('care_plan_gate', { interval_days: 0 }),
  care_plan_once: copyOf('care_plan', { id: 'p2' }),
  care_plan_stage_exit_times_in_order: copyOf('care_plan_stage', { died_p90_days: 1 }),
  care_plan_stage_gate_closes_is_month_day: copyOf('care_plan_stage', { gate_closes: 'spring' }),
  care_plan_stage_gate_opens_is_month_day: copyOf('care_plan_stage', { gate_opens: 'spring' }),
  care_plan_stage_has_a_length: copyOf('care_plan_stage', { ready_p90_days: 1 }),
  care_plan_stage_housing_known: known('care_plan_stage', 'housing_type'),
  care_plan_stage_known: known('care_plan_stage', 'stage'),
  care_plan_stage_no_positive: copyOf('care_plan_stage', { stage_no: 0 }),
  care_plan_stage_shares_sum_to_one: copyOf('care_plan_stage', { died: 0.2 }),
  centre_name_once: copyOf('centre'),
  centre_night_door_known: known('centre', 'night_door'),
  centre_on_call_names_who_opens: copyOf('centre', { name: 'x', night_door: 'on-call' }),
  company_preys_known: known('company', 'preys'),
  condition_applies_to_known: known('condition', 'applies_to'),
  condition_kind_known: known('condition', 'kind'),
  condition_name_once: copyOf('condition', { slug: 'x' }),
  condition_quarantine_known: known('condition', 'quarantine'),
  condition_urgency_known: known('condition', 'default_urgency'),
  enclosure_dries_after_known: known('enclosure', 'dries_after'),
  enclosure_height_positive: copyOf('enclosure', { height_m: 0 }),
  enclosure_housing_known: known('enclosure', 'housing_type'),
  enclosure_length_positive: copyOf('enclosure', { length_m: 0 }),
  enclosure_name_once: copyOf('enclosure'),
  enclosure_size_rank_in_range: copyOf('enclosure', { size_rank: 10 }),
  enclosure_turnaround_not_negative: copyOf('enclosure', { turnaround_min: -1 }),
  enclosure_width_positive: copyOf('enclosure', { width_m: 0 }),
  gazetteer_place_kind_known: known('gazetteer_place', 'kind'),
  gazetteer_place_name_once: copyOf('gazetteer_place'),
  network_is_one: copyOf('network', { id: 2 }),
  housing_counter_is_one: copyOf('housing_counter', { id: 2 }),
  outside_place_name_once: copyOf('outside_place'),
  person_email_is_lower_case: copyOf('person', { email: 'One@Example.org' }),
  person_email_once: copyOf('person'),
  person_role_known: copyOf('person_role', { role: 'king', centre_id: null }),
  person_role_names_its_place: copyOf('person_role', { role: 'manager' }),
  person_role_once: copyOf('person_role'),
  sign_in_how_known: known('sign_in', 'how'),
  sign_in_wait_kind_known: known('sign_in_wait', 'kind'),
  sign_in_wait_refused_not_negative: copyOf('sign_in_wait', { key: 'other', refused: -1 }),
  plan_group_age_known: known('plan_group', 'age'),
  plan_group_class_known: known('plan_group', 'class'),
  ...policy('late_minutes_in_range', 'late_minutes', 0),
  ...policy('ask_lapse_positive', 'ask_lapse_minutes', 0),
  ...policy('finder_days_positive', 'finder_days', 0),
  ...policy('hold_minutes_positive', 'hold_minutes', 0),
  ...policy('is_one', 'id', 2),
  ...policy('kappa_is_a_share', 'kappa', 2),
  ...policy('keep_advice_not_negative', 'keep_advice_place_days', -1),
  ...policy('keep_today_not_negative', 'keep_today_place_days', -1),
  ...policy('keep_tomorrow_not_negative', 'keep_tomorrow_place_days', -1),
  ...policy('km_positive', 'km_per_place_day', 0),
  ...policy('omega_not_negative', 'omega', -1),
  policy_preset_known: known('policy', 'preset'),
  ...policy('redirect_not_negative', 'redirect_place_days', -1),
  ...policy('refusal_not_negative', 'refusal_place_days', -1),
  ...policy('tight_chance_is_a_share', 'tight_chance', 1),
  ...policy('transfer_not_negative', 'transfer_place_days', -1),
  practice_name_once: copyOf('practice'),
  practice_night_cover_has_a_number: copyOf('practice', { name: 'x', has_night_cover: true }),
  reference_key_kind_known: known('reference_key', 'kind'),
  room_kind_known: known('room', 'kind'),
  room_name_once: copyOf('room'),
  species_adult_alone_known: known('species', 'adult_alone'),
  species_class_known: known('species', 'class'),
  species_common_name_once: copyOf('species', { slug: 'x' }),
  species_flight_length_positive: copyOf('species', { flight_length_min_m: 0 }),
  species_group_class_known: known('species_group', 'class'),
  species_group_name_once: copyOf('species_group', { slug: 'x' }),
  species_mass_in_order: copyOf('species', { mass_g_low: 5, mass_g_high: 4 }),
  species_preys_known: known('species', 'preys'),
  species_size_rank_in_range: copyOf('species', { size_rank: 0 }),
  species_young_from_is_a_month: copyOf('species', { young_from_month: 13 }),
  species_young_to_is_a_month: copyOf('species', { young_to_month: 0 }),
  standing_offer_not_negative: copyOf('standing_offer', { places: -1 }),
  test_clock_is_one: copyOf('test_clock', { id: 2 }),
  travel_km_not_negative: copyOf('travel', { km: -1 }),
  travel_minutes_not_negative: copyOf('travel', { minutes: -1 }),
  year_arrivals_not_negative: copyOf('year_arrivals', { animals_per_year: -1 }),
  year_arrivals_some_size: copyOf('year_arrivals', { event_sizes: [] }),
  year_arrivals_twelve_months: copyOf('year_arrivals', { month_shares: [1] }),
}

export const BREAKS: Readonly<Record<string, string>> = {
  ...CARE,
  ...STAY_BREAKS,
  ...ROAD,
  ...PICTURE_BREAKS,
  ...MOVES,
  ...LINE,
  ...ROUND,
  ...PLACES,
  ...KEPT,
  ...SETUP,
}
