/**
 * What PostgreSQL refused, as a Failure that names the rule.
 * Promise: a constraint of ours comes out with its name, and with the field it belongs to; a race lost to another
 * session as 'taken' or 'conflict'. Everything else passes unchanged: it is a fault or a bug. Never reads the detail
 * of an error, which quotes what was typed.
 */
import 'server-only'
import { Failure, type FailureCode } from '#lib/kernel/failure.ts'

type Refusal = { readonly code: FailureCode; readonly field?: string }

/** Refusals that are not plainly "a rule stands against this": by name of the constraint. */
const REFUSALS: Readonly<Record<string, Refusal>> = {
  claim_place_taken_once: { code: 'taken', field: 'placeNo' },
  claim_company_compatible: { code: 'taken', field: 'enclosureId' },
  claim_room_apart: { code: 'rule', field: 'enclosureId' },
  claim_fits_stocking: { code: 'rule', field: 'placeNo' },
  claim_quarantine_in_isolation: { code: 'rule', field: 'enclosureId' },
  claim_not_empty: { code: 'invalid', field: 'endsAt' },
  closure_ends_after_it_starts: { code: 'invalid', field: 'endsAt' },
  movement_stop_ends_after_it_starts: { code: 'invalid', field: 'endsAt' },
  departure_booked_once: { code: 'conflict' },
  keeping_superseded_once: { code: 'conflict' },
  finding_superseded_once: { code: 'conflict' },
  identification_superseded_once: { code: 'conflict' },
  stage_fact_superseded_once: { code: 'conflict' },
  casualty_plan_version_once: { code: 'conflict' },
  entry_device_key_once: { code: 'conflict' },
  round_entry_undone_once: { code: 'conflict' },
  ask_one_yes_per_referral: { code: 'taken' },
  ask_one_yes_per_decision: { code: 'taken' },
  ask_one_waits_per_decision: { code: 'conflict' },
  ask_once_a_centre: { code: 'conflict' },
  ask_vets_yes_has_a_time: { code: 'invalid', field: 'comesAt' },
  centre_word_one_at_a_time: { code: 'conflict' },
  keeping_within_its_precision: { code: 'invalid', field: 'since' },
  check_due_within_its_precision: { code: 'invalid', field: 'at' },
  note_within_its_precision: { code: 'invalid', field: 'at' },
  stage_fact_within_its_precision: { code: 'invalid', field: 'at' },
  surgery_within_its_precision: { code: 'invalid', field: 'at' },
  weight_within_its_precision: { code: 'invalid', field: 'at' },
  vet_word_within_its_precision: { code: 'invalid', field: 'at' },
  vet_word_in_days_in_range: { code: 'invalid', field: 'longer' },
  vet_word_within_limits: { code: 'invalid', field: 'saidBy' },
  vet_word_superseded_once: { code: 'conflict' },
  weight_positive: { code: 'invalid', field: 'grams' },
  check_due_signature_names_the_vet: { code: 'invalid', field: 'signedBy' },
  release_animal_planned_once: { code: 'rule', field: 'animals[]' },
  release_site_has_both_numbers: { code: 'invalid', field: 'longitude' },
  claim_by_an_authorised_holder: { code: 'rule', field: 'enclosureId' },
  reference_key_clocks_name_their_holders: { code: 'invalid', field: 'clockHolders' },
  licence_holder_ends_after_it_begins: { code: 'invalid', field: 'validUntil' },
  weight_superseded_once: { code: 'conflict' },
  attachment_sent_once: { code: 'conflict', field: 'picture' },
  surgery_superseded_once: { code: 'conflict' },
  implant_fact_out_once: { code: 'conflict' },
  line_turn_one_holder: { code: 'taken' },
  line_offer_one_open: { code: 'conflict' },
  line_turn_ends_after_it_begins: { code: 'invalid', field: 'untilAt' },
  line_turn_taken_over_with_a_reason: { code: 'invalid', field: 'reason' },
  casualty_member_once: { code: 'conflict' },
  membership_follows_the_last: { code: 'conflict' },
  membership_superseded_once: { code: 'conflict' },
  membership_within_limits: { code: 'invalid', field: 'toldBy' },
  move_aside_other_says_why: { code: 'invalid', field: 'words' },
  move_aside_within_limits: { code: 'invalid', field: 'words' },
  transfer_one_open: { code: 'conflict' },
  backtest_one_open: { code: 'conflict' },
  transfer_goes_elsewhere: { code: 'invalid', field: 'toCentreId' },
  journey_goes_elsewhere: { code: 'invalid', field: 'to' },
  journey_animal_one_open: { code: 'conflict', field: 'animals' },
  leg_one_of_a_number: { code: 'conflict' },
  leg_one_on_the_road: { code: 'conflict' },
  leg_due_after_pick_up: { code: 'invalid', field: 'dueAt' },
  person_initials_once: { code: 'rule', field: 'initials' },
  person_initials_shape: { code: 'invalid', field: 'initials' },
  person_email_once: { code: 'rule', field: 'email' },
  person_email_is_lower_case: { code: 'invalid', field: 'email' },
  person_role_names_its_place: { code: 'invalid', field: 'role' },
  person_role_once: { code: 'rule', field: 'role' },
  centre_name_once: { code: 'rule', field: 'name' },
  centre_on_call_names_who_opens: { code: 'invalid', field: 'nightName' },
  room_name_once: { code: 'rule', field: 'name' },
  enclosure_name_once: { code: 'rule', field: 'name' },
  practice_name_once: { code: 'rule', field: 'name' },
  practice_night_cover_has_a_number: { code: 'invalid', field: 'nightPhone' },
  outside_place_name_once: { code: 'rule', field: 'name' },
  species_common_name_once: { code: 'rule', field: 'commonName' },
  species_mass_in_order: { code: 'invalid', field: 'massGHigh' },
  condition_name_once: { code: 'rule', field: 'name' },
  gazetteer_place_name_once: { code: 'rule', field: 'name' },
}

const OURS = new Set(['23514', '23P01', '23505'])
const REFERS_TO_NOTHING = '23503'
const LOST_RACES = new Set(['40001', '40P01'])

/** The Failure for a refusal of the database; whatever else was thrown comes back as it is. */
export function refusedBy(thrown: unknown): unknown {
  const { sqlState, message, index } = readError(thrown)
  if (sqlState === undefined) return thrown
  if (LOST_RACES.has(sqlState)) return new Failure('conflict', { cause: thrown })
  if (sqlState === REFERS_TO_NOTHING) {
    return new Failure('rule', { rule: 'refers_to_what_is_there', cause: thrown })
  }
  const name = index ?? /constraint "([a-z0-9_]+)"/.exec(message)?.[1]
  if (!OURS.has(sqlState) || name === undefined) return thrown
  const { code, field } = (Object.hasOwn(REFUSALS, name) && REFUSALS[name]) || { code: 'rule' as const }
  return new Failure(code, { rule: name, cause: thrown, ...(field !== undefined && { field }) })
}

/** The constraints that have a code or field of their own here; a test holds them against the live schema. */
export function listMappedConstraints(): string[] {
  return Object.keys(REFUSALS)
}

type Read = {
  readonly sqlState: string | undefined
  readonly message: string
  readonly index: string | undefined
}

/**
 * Prisma brings the driver's error in three shapes: under meta of a known request error, as the error itself, or,
 * for a conflict of writes, as code P2034 alone. The plain driver's error is read as well.
 */
function readError(thrown: unknown): Read {
  const adapter = at(at(thrown, 'meta'), 'driverAdapterError') ?? thrown
  const cause = at(adapter, 'cause')
  const code = at(thrown, 'code')
  const own =
    typeof code === 'string' && /^[0-9A-Z]{5}$/.test(code) && !code.startsWith('P2') ? code : undefined
  const sqlState = text(at(cause, 'originalCode')) ?? (code === 'P2034' ? '40001' : own)
  return {
    sqlState,
    message: text(at(cause, 'originalMessage')) ?? text(at(thrown, 'message')) ?? '',
    index: text(at(at(cause, 'constraint'), 'index')) ?? text(at(thrown, 'constraint')),
  }
}

function at(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined
}

function text(value: unknown): string | undefined {
  return typeof value === 'string' && value !== '' ? value : undefined
}
