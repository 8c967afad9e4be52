/** What a person reads when the database refuses a word about a stay: checks, operations, implants. */
import type { Said } from './said.ts'

const LOOK = 'Look at what it says now, then decide again. Everything typed is kept.'
const CORRECT = 'Record a correction instead: it becomes a new line beside the old one.'
const KEPT: Said = { say: 'What was recorded stays as it was', next: CORRECT }
const SHORTER: Said = {
  say: 'The words are too long, or missing',
  next: 'Change them. Everything typed is kept.',
}
const VET: Said = {
  say: 'Where something stays in the animal, a vet has signed',
  next: 'Write which vet. Everything typed is kept.',
}

/** For whatever has a time that may lie in a span. */
export const OUTSIDE_SPAN: Said = {
  say: 'The time is outside the span in which it may lie',
  next: 'Change the time or the span.',
}

const REGROUPED: Said = { say: 'Somebody regrouped them a moment ago', next: LOOK }

const DEGREES: Said = {
  say: 'This is no place on the map',
  next: 'Latitude to 90, longitude to 180 degrees.',
}
const DAY: Said = { say: 'This is no day of the year', next: 'Give month and day, such as 09-15.' }

export const STAY_CONSTRAINTS: Readonly<Record<string, Said>> = {
  release_latitude_in_range: DEGREES,
  release_longitude_in_range: DEGREES,
  release_site_has_both_numbers: {
    say: 'A place on the map needs both numbers, or neither',
    next: 'Give latitude and longitude, or leave both empty.',
  },
  release_within_limits: SHORTER,
  release_animal_within_limits: SHORTER,
  release_animal_planned_once: {
    say: 'One of these animals is in another planned release already',
    next: 'Leave it out, or call the other off. Everything typed is kept.',
  },
  release_against_within_limits: SHORTER,
  release_against_is_append_only: KEPT,
  release_wait_is_append_only: KEPT,
  claim_by_an_authorised_holder: {
    say: 'This centre holds no licence for an animal of this kind',
    next: 'Choose a centre that does, or a vet. Who is authorised stands with the rule in setup.',
  },
  reference_key_clocks_name_their_holders: {
    say: 'For each number of days it says for whom it counts, or for none',
    next: 'Give as many as there are days, or leave it empty. Everything typed is kept.',
  },
  licence_holder_ends_after_it_begins: {
    say: 'The licence ends before it begins',
    next: 'Change one of the two days.',
  },
  licence_holder_within_limits: SHORTER,
  licence_word_within_limits: SHORTER,
  licence_word_is_append_only: KEPT,
  casualty_member_once: REGROUPED,
  membership_follows_the_last: REGROUPED,
  membership_superseded_once: REGROUPED,
  membership_is_append_only: KEPT,
  membership_within_limits: SHORTER,
  check_due_within_its_precision: OUTSIDE_SPAN,
  note_within_its_precision: OUTSIDE_SPAN,
  stage_fact_within_its_precision: OUTSIDE_SPAN,
  surgery_within_its_precision: OUTSIDE_SPAN,
  weight_within_its_precision: OUTSIDE_SPAN,
  weight_superseded_once: { say: 'Somebody said this of the weight a moment ago', next: LOOK },
  weight_is_append_only: KEPT,
  casualty_stage_within_limits: SHORTER,
  species_season_opens_is_month_day: DAY,
  species_season_closes_is_month_day: DAY,
  species_season_grams_positive: { say: 'A weight is more than 0 g', next: 'Change it.' },
  species_season_hibernation_has_a_weight: {
    say: 'A season of hibernation says under which weight an animal is overwintered, others say none',
    next: 'Give the weight, or take it out.',
  },
  species_season_within_limits: SHORTER,
  check_due_signature_names_the_vet: VET,
  check_due_more_days_positive: {
    say: 'At least one day longer',
    next: 'Give 1 or more, or leave it empty.',
  },
  check_due_within_limits: SHORTER,
  vet_word_in_days_in_range: {
    say: 'From 1 day to 730 days, which is two years',
    next: 'Change the number, or say it in days. Everything typed is kept.',
  },
  vet_word_within_its_precision: OUTSIDE_SPAN,
  vet_word_superseded_once: { say: 'Somebody took this word back a moment ago', next: LOOK },
  vet_word_within_limits: SHORTER,
  vet_word_is_append_only: KEPT,
  surgery_superseded_once: { say: 'Somebody took this operation back a moment ago', next: LOOK },
  surgery_within_limits: SHORTER,
  surgery_is_append_only: KEPT,
  implant_is_append_only: KEPT,
  implant_fact_is_append_only: KEPT,
  implant_fact_out_once: { say: 'Somebody recorded a moment ago that it is out', next: LOOK },
  implant_fact_signature_names_the_vet: VET,
  implant_fact_within_limits: SHORTER,
}

/** Rules of domain about a stay. */
export const STAY_RULES = {
  'signature-names-the-vet': {
    say: 'Write which vet signs that it stays',
    next: 'Only a vet decides that. Everything typed is kept.',
  },
} as const satisfies Readonly<Record<string, Said>>
