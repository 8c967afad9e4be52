/**
 * What a person reads when the database refuses a plan or a fact: one sentence for each rule, by the constraint's
 * name, and what to do now. Those of setup are in constraint-setup.ts. Closed lists that forms offer have none:
 * nobody can meet them.
 */

import { PICTURE_CONSTRAINTS } from './attachment.ts'
import { SETUP_CONSTRAINTS } from './constraint-setup.ts'
import { OUTSIDE_SPAN, STAY_CONSTRAINTS } from './constraint-stay.ts'
import { JUDGED_CONSTRAINTS } from './judged-refusal.ts'
import { LINE_CONSTRAINTS } from './line-refusal.ts'
import { ROAD_CONSTRAINTS } from './road-refusal.ts'
import type { Said } from './said.ts'

const CHOOSE = 'Choose the next best. Everything typed is kept.'
const LOOK = 'Look at what it says now, then decide again. Everything typed is kept.'
const CORRECT = 'Record a correction instead: it becomes a new line beside the old one.'

const CARE_CONSTRAINTS: Readonly<Record<string, Said>> = {
  claim_place_taken_once: { say: 'This place has just been taken', next: CHOOSE },
  claim_company_compatible: {
    say: 'This enclosure is closed, still drying, or holds animals that this one may not share with',
    next: CHOOSE,
  },
  claim_room_apart: {
    say: 'This room keeps predators and their prey apart, and the other kind is in it',
    next: 'Choose a place in another room.',
  },
  claim_fits_stocking: {
    say: 'This enclosure has no place for this kind of animal, or not so many',
    next: 'Choose another enclosure, or change its stocking in setup.',
  },
  claim_quarantine_in_isolation: {
    say: 'Quarantine needs a place in isolation',
    next: 'Choose an isolation place.',
  },
  claim_not_empty: { say: 'The end is not after the beginning', next: 'Change one of the two times.' },
  claim_casualty_in_one_place: {
    say: 'This animal would be in two places at once',
    next: 'Say first when it left the other place.',
  },
  whereabouts_one_keeper: {
    say: 'Two keepers would have this animal at the same time',
    next: 'Correct the time of one of the two entries.',
  },
  hold_for_an_open_casualty: {
    say: 'This case is closed, so no place can be kept for it',
    next: 'If the animal is here after all, record where it is: that opens the case again.',
  },
  hold_not_at_a_stopped_site: {
    say: 'Nothing may move into this centre: a movement stop is in force',
    next: 'Choose another centre, or examine the animal outside and report.',
  },
  hold_not_from_a_stopped_site: {
    say: 'Nothing may leave the centre where this animal is: a movement stop is in force',
    next: 'Find it a place within that centre.',
  },
  hold_not_at_a_site_closed_to_high_risk: {
    say: 'This centre takes no animals at high risk of avian influenza now',
    next: 'Choose another centre, or examine the animal outside and report.',
  },
  hold_not_in_a_full_isolation: {
    say: 'The isolation of this centre is full by its own word',
    next: 'Choose another centre.',
  },
  departure_from_a_centre: {
    say: 'A departure can be booked only for an animal that is at a centre',
    next: 'Record where it is first.',
  },
  departure_booked_once: { say: 'Somebody booked its departure a moment ago', next: LOOK },
  closure_ends_after_it_starts: {
    say: 'The closure ends before it begins',
    next: 'Change one of the two times.',
  },
  movement_stop_ends_after_it_starts: {
    say: 'The stop ends before it begins',
    next: 'Change one of the two times.',
  },
  movement_stop_one_at_a_time: {
    say: 'Another state of this site begins within that time',
    next: 'Let this one end before it, or take the other back.',
  },
  keeping_superseded_once: { say: 'Somebody corrected this a moment ago', next: LOOK },
  finding_superseded_once: { say: 'Somebody corrected this a moment ago', next: LOOK },
  identification_superseded_once: { say: 'Somebody corrected this a moment ago', next: LOOK },
  stage_fact_superseded_once: { say: 'Somebody corrected this a moment ago', next: LOOK },
  casualty_plan_version_once: { say: 'Somebody revised this plan a moment ago', next: LOOK },
  keeping_names_one_keeper: {
    say: 'Say who has the animal: one driver, one practice, one centre, or how the case ended',
    next: 'Name exactly one.',
  },
  keeping_within_its_precision: OUTSIDE_SPAN,
  keeping_place_positive: { say: 'Places are numbered from 1', next: 'Give 1 or more.' },
  weight_positive: { say: 'A weight is more than 0 g', next: 'Weigh again, or leave it out.' },
  check_due_done_has_a_result: {
    say: 'A check that is done says whether it was passed',
    next: 'Say passed or not passed.',
  },
  check_due_not_before_its_stage: {
    say: 'A check is due on the first day of its stage or later',
    next: 'Give a later day.',
  },
  ask_one_yes_per_referral: {
    say: 'Another practice has said yes already',
    next: 'Thank this one, and record a no.',
  },
  ask_one_yes_per_decision: {
    say: 'Another centre has said yes already',
    next: 'Thank this one, and record a no.',
  },
  ask_one_waits_per_decision: { say: 'Another centre was asked a moment ago', next: LOOK },
  ask_once_a_centre: { say: 'This centre was asked already', next: LOOK },
  ask_vets_yes_has_a_time: {
    say: 'A yes needs the time at which the vet sees it',
    next: 'Give a day and a time. Everything typed is kept.',
  },
  ask_within_limits: { say: 'The words are too long', next: 'Shorten them. Everything typed is kept.' },
  referral_within_limits: {
    say: 'Say in a few words what is asked of the vet',
    next: 'Between 1 and 400 characters. Everything typed is kept.',
  },
  centre_word_one_at_a_time: { say: 'Somebody said this for the centre a moment ago', next: LOOK },
  centre_word_rounds_in_range: { say: 'Feeding rounds lie between 0 and 96 a day', next: 'Change it.' },
  entry_device_key_once: { say: 'This was recorded already', next: 'Nothing more is to be done.' },
  person_initials_once: {
    say: 'Somebody else signs with these initials',
    next: 'Add a letter: two to four are taken.',
  },
  person_initials_shape: { say: 'Initials are two to four letters', next: 'Such as OB or MAS.' },
  round_entry_undone_once: { say: 'This was taken back already', next: LOOK },
  casualty_reference_not_reused_for_two_years: {
    say: 'This reference was given to another animal within two years',
    next: 'Try again: the next one is taken.',
  },
  call_parked_has_a_time: { say: 'A call put aside says since when', next: 'Put it aside again.' },
  call_pair_is_append_only: { say: 'What was recorded stays as it was', next: CORRECT },
  call_closed_has_a_time: { say: 'A closed call says when it was closed', next: 'Close it again.' },
  note_is_about_something: {
    say: 'A note belongs to an animal or to a call',
    next: 'Open one of them first.',
  },
  unmet_demand_animals_positive: { say: 'At least one animal was asked for', next: 'Give 1 or more.' },
  entry_is_append_only: { say: 'What was recorded stays as it was', next: CORRECT },
  keeping_is_append_only: { say: 'What was recorded stays as it was', next: CORRECT },
  stage_fact_is_append_only: { say: 'What was recorded stays as it was', next: CORRECT },
  identification_is_append_only: { say: 'What was recorded stays as it was', next: CORRECT },
  finding_is_append_only: { say: 'What was recorded stays as it was', next: CORRECT },
  audit_is_append_only: {
    say: 'Who did what stays as it was written',
    next: 'A name can be taken out by erasing the person.',
  },
  refers_to_what_is_there: {
    say: 'What this belongs to is not there, or something still belongs to it',
    next: 'Look at what it says now. What is in use can be switched off instead.',
  },
}

/** What a constraint says, when it has a sentence. */
export function constraintWords(name: string): Said | undefined {
  if (Object.hasOwn(CARE_CONSTRAINTS, name)) return CARE_CONSTRAINTS[name]
  if (Object.hasOwn(ROAD_CONSTRAINTS, name)) return ROAD_CONSTRAINTS[name]
  if (Object.hasOwn(LINE_CONSTRAINTS, name)) return LINE_CONSTRAINTS[name]
  if (Object.hasOwn(STAY_CONSTRAINTS, name)) return STAY_CONSTRAINTS[name]
  if (Object.hasOwn(JUDGED_CONSTRAINTS, name)) return JUDGED_CONSTRAINTS[name]
  if (Object.hasOwn(PICTURE_CONSTRAINTS, name)) return PICTURE_CONSTRAINTS[name]
  return Object.hasOwn(SETUP_CONSTRAINTS, name) ? SETUP_CONSTRAINTS[name] : undefined
}
