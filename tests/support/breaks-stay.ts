/** How to break each rule about checks, operations and what they leave; the rows are in one-of-each.ts. */
import { copyOf, known } from './one-of-each.ts'

const LONG = 'x'.repeat(201)

const season = (change: Readonly<Record<string, unknown>>) =>
  copyOf('species_season', { kind: 'hibernation', grams: 600, ...change })

const AFTER = { at_earliest: '2026-07-01', at_latest: '2026-07-02', supersedes: null }

const OTHER_ANIMAL = { casualty_id: 2 }

const holder = (change: Readonly<Record<string, unknown>>) =>
  copyOf('licence_holder', { centre_id: 1, ...change })

const line = (change: Readonly<Record<string, unknown>>) =>
  copyOf('membership', {
    casualty_id: 1,
    was_batch_id: 1,
    was_member_no: 1,
    batch_id: 1,
    member_no: 7,
    ...change,
  })

export const STAY_BREAKS = {
  casualty_member_once: 'update casualty set batch_id = 1, member_no = 1 where id = 3',
  membership_kind_known: line({ kind: 'no such thing' }),
  membership_superseded_once: line({ kind: 'taken-back', supersedes: 1 }),
  membership_changes_something: line({ member_no: 1 }),
  membership_numbers_its_member: line({ member_no: null }),
  membership_takes_back_a_line: line({ kind: 'taken-back' }),
  membership_within_limits: line({ told_by: 'x'.repeat(81) }),
  membership_follows_the_last: line({ was_member_no: 5 }),
  membership_is_append_only: 'delete from membership',
  claim_by_an_authorised_holder: `update species set licence_keys = '{only-some}' where slug = 'robin';
    update reference_key set needs_holder = true where key = 'only-some';
    select plan_hold(4, 2, 1, '2026-08-01', '2026-08-02', '2026-08-01', '2026-08-03', false, null, '2026-06-10T12:00Z')`,
  reference_key_clock_holders_known: copyOf('reference_key', {
    key: 'x',
    clock_days: [1],
    clock_holders: ['x'],
  }),
  reference_key_clocks_name_their_holders: copyOf('reference_key', {
    key: 'x',
    clock_days: [1, 2],
    clock_holders: ['vet'],
  }),
  licence_holder_kind_known: holder({ kind: 'company' }),
  licence_holder_ends_after_it_begins: holder({ valid_until: '2019-01-01' }),
  licence_holder_within_limits: holder({ licence_no: ' ' }),
  licence_word_within_limits: copyOf('licence_word', { words: LONG }),
  licence_word_is_append_only: 'delete from licence_word',
  release_state_known: known('release', 'state'),
  release_way_known: known('release', 'way'),
  release_latitude_in_range: copyOf('release', { latitude: 91 }),
  release_longitude_in_range: copyOf('release', { longitude: -181 }),
  release_site_has_both_numbers: copyOf('release', { longitude: null }),
  release_within_limits: copyOf('release', { site: ' ' }),
  release_animal_state_known: copyOf('release_animal', { ...OTHER_ANIMAL, state: 'no such thing' }),
  release_animal_gone_by_a_fact: copyOf('release_animal', { ...OTHER_ANIMAL, state: 'gone' }),
  release_animal_within_limits: copyOf('release_animal', { ...OTHER_ANIMAL, ring: LONG }),
  release_animal_planned_once: copyOf('release_animal', { release_id: 2 }),
  release_against_rule_known: known('release_against', 'rule'),
  release_against_within_limits: copyOf('release_against', { what: 'x'.repeat(501) }),
  release_against_is_append_only: 'delete from release_against',
  release_wait_for_known: copyOf('release_wait', { waits_for: ['no such thing'] }),
  release_wait_is_append_only: 'delete from release_wait',
  check_due_within_its_precision: copyOf('check_due', {
    done_at: '2026-06-09',
    passed: true,
    done_earliest: '2026-07-01',
    done_latest: '2026-07-02',
  }),
  note_within_its_precision: copyOf('note', AFTER),
  stage_fact_within_its_precision: copyOf('stage_fact', AFTER),
  surgery_within_its_precision: copyOf('surgery', AFTER),
  weight_within_its_precision: copyOf('weight', AFTER),
  weight_superseded_once: copyOf('weight', {}, 'supersedes is not null'),
  weight_is_append_only: 'delete from weight',
  casualty_stage_within_limits: copyOf('casualty_stage', { stage_no: 2, waits_for: LONG }),
  species_season_kind_known: known('species_season', 'kind'),
  species_season_opens_is_month_day: season({ opens: '02-30' }),
  species_season_closes_is_month_day: season({ closes: '9-15' }),
  species_season_grams_positive: season({ grams: -1 }),
  species_season_hibernation_has_a_weight: season({ grams: null }),
  species_season_within_limits: season({ mark: '' }),
  check_due_anchor_known: known('check_due', 'anchor'),
  check_due_found_known: copyOf('check_due', { done_at: '2026-06-10', passed: true, found: 'no such thing' }),
  check_due_found_once_done: copyOf('check_due', { found: 'united' }),
  check_due_more_days_positive: copyOf('check_due', { done_at: '2026-06-10', passed: false, more_days: 0 }),
  check_due_signature_names_the_vet: copyOf('check_due', {
    done_at: '2026-06-10',
    passed: true,
    found: 'signed to stay',
  }),
  check_due_within_limits: copyOf('check_due', { done_at: '2026-06-10', passed: true, signed_by: LONG }),
  check_displaced_how_known: copyOf('check_displaced', { claim_id: 2, how: 'no such thing', now_at: null }),
  check_displaced_moved_says_when: copyOf('check_displaced', { claim_id: 2, now_at: null }),
  vet_word_in_days_in_range: copyOf('vet_word', { in_days: 731 }),
  vet_word_within_its_precision: copyOf('vet_word', AFTER),
  vet_word_void_names_what_it_takes_back: copyOf('vet_word', { is_void: true }),
  vet_word_superseded_once: copyOf('vet_word', {}, 'is_void'),
  vet_word_within_limits: copyOf('vet_word', { said_by: ' ' }),
  vet_word_is_append_only: 'update vet_word set in_days = 15',
  surgery_side_known: known('surgery', 'side'),
  surgery_superseded_once: copyOf('surgery', {}, 'supersedes is not null'),
  surgery_within_limits: copyOf('surgery', { what: LONG, supersedes: null }),
  surgery_is_append_only: `update surgery set what = 'other'`,
  implant_kind_known: known('implant', 'kind'),
  implant_is_append_only: 'delete from implant',
  implant_fact_how_known: known('implant_fact', 'how'),
  implant_fact_out_once: copyOf('implant_fact'),
  implant_fact_signature_names_the_vet: copyOf('implant_fact', { how: 'signed to stay' }),
  implant_fact_within_limits: copyOf('implant_fact', { how: 'signed to stay', signed_by: LONG }),
  implant_fact_is_append_only: `update implant_fact set at = '2026-01-01'`,
}
