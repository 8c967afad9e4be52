/**
 * How to break each rule of the database: for every check, exclusion, unique rule and refusing trigger one statement
 * that nothing else refuses. Starts from one-of-each.ts.
 */
import { LEARNING_BREAKS } from './breaks-learning.ts'
import { PICTURE_BREAKS } from './breaks-picture.ts'
import { SETUP_BREAKS } from './breaks-setup.ts'
import { STAY_BREAKS } from './breaks-stay.ts'
import { copyOf, known, limits } from './one-of-each.ts'

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
  move_aside_reason_known: known('move_aside', 'reason'),
  move_aside_other_says_why: copyOf('move_aside', { reason: 'other', words: null }),
  move_aside_taken_up_after_it_was_set: copyOf('move_aside', { taken_up_at: '2020-01-01' }),
  ...limits('move_aside', { words: 'x'.repeat(201) }),
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
  ...SETUP_BREAKS,
  ...LEARNING_BREAKS,
}
