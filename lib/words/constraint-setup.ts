/**
 * The rules of setup that the database keeps, each with its sentence: names, limits, hours, shares.
 */
import type { Said } from './said.ts'

const CHANGE = 'Change it. Everything typed is kept.'

const said = (say: string, next: string = CHANGE): Said => ({ say, next })
const once = (what: string) => said(`Another ${what} has this name`, 'Give it a name of its own.')
const positive = (what: string) => said(`${what} must be more than 0`)
const notNegative = (what: string) => said(`${what} can't be less than 0`)
const inRange = (what: string, low: number, high: number) => said(`${what} lies between ${low} and ${high}`)
/** Forms refuse these first, field by field; this is what an import or another writer reads. */
const limits = (what: string) =>
  said(`A word or number of ${what} is longer, larger or shorter than it can be`)
const latitude = inRange('Latitude', -90, 90)
const longitude = inRange('Longitude', -180, 180)
const weekday = inRange('A weekday', 1, 7)
const hoursInOrder = said('The hours end before they begin', 'Change one of the two times.')
const hoursApart = said('Two opening times of one day overlap', 'Join them, or change one.')
const monthDay = said('A day of the year is given as month and day, such as 03-20')

export const SETUP_CONSTRAINTS: Readonly<Record<string, Said>> = {
  centre_name_once: once('centre'),
  room_name_once: once('room of this centre'),
  enclosure_name_once: once('enclosure of this centre'),
  practice_name_once: once('practice'),
  outside_place_name_once: once('place outside'),
  species_common_name_once: once('species'),
  species_group_name_once: once('group'),
  condition_name_once: once('condition'),
  gazetteer_place_name_once: once('place of this kind'),
  care_plan_once: said(
    'There is a care plan for this condition, group, severity and treatment already',
    'Change that one, or choose another severity or treatment.',
  ),
  policy_within_limits: limits('the policy'),
  gazetteer_place_within_limits: limits('this place'),
  company_within_limits: limits('this company'),
  species_group_within_limits: limits('this group'),
  species_within_limits: limits('this species'),
  condition_within_limits: limits('this condition'),
  reference_key_within_limits: limits('this rule'),
  centre_within_limits: limits('this centre'),
  centre_contact_within_limits: limits('who answers for this centre'),
  centre_contact_position_positive: positive('The order'),
  centre_contact_position_once: said('Two of those who answer stand at the same place of the list'),
  centre_contact_hours_both_or_none: said(
    'Hours need both a beginning and an end',
    'Give both, or leave both empty for any hour.',
  ),
  centre_contact_hours_in_range: said('The hours begin and end at the same minute, or lie outside of a day'),
  standing_offer_within_limits: limits('this offer'),
  travel_within_limits: limits('this road'),
  movement_stop_within_limits: limits('this stop'),
  room_within_limits: limits('this room'),
  enclosure_within_limits: limits('this enclosure'),
  stocking_within_limits: limits('this stocking'),
  closure_within_limits: limits('this closure'),
  year_arrivals_within_limits: limits('these arrivals'),
  year_arrivals_shares_sum_to_one: said('The shares add up to something other than 100 %'),
  practice_within_limits: limits('this practice'),
  driver_within_limits: limits('this driver'),
  driver_hours_weekday_in_range: weekday,
  driver_hours_in_order: hoursInOrder,
  driver_hours_not_overlapping: hoursApart,
  outside_place_within_limits: limits('this place'),
  person_within_limits: limits('this person'),
  care_plan_stage_within_limits: limits('this stage'),
  care_plan_stage_gate_closes_after_it_opens: said('A stage that closes on a day also opens on one'),
  care_plan_stage_gate_has_a_lag: said(
    'A stage that opens on a day of the year also says how long it takes from then on',
  ),
  care_plan_gate_within_limits: limits('this check'),
  centre_latitude_in_range: latitude,
  centre_longitude_in_range: longitude,
  practice_latitude_in_range: latitude,
  practice_longitude_in_range: longitude,
  outside_place_latitude_in_range: latitude,
  outside_place_longitude_in_range: longitude,
  gazetteer_place_latitude_in_range: latitude,
  gazetteer_place_longitude_in_range: longitude,
  centre_on_call_names_who_opens: said(
    'A door opened on call needs a name and a number',
    'Say who opens at night, and how to ring them.',
  ),
  practice_night_cover_has_a_number: said('Night cover needs a number to ring', 'Give the number.'),
  centre_hours_weekday_in_range: weekday,
  practice_hours_weekday_in_range: weekday,
  centre_hours_in_order: hoursInOrder,
  practice_hours_in_order: hoursInOrder,
  centre_hours_not_overlapping: hoursApart,
  practice_hours_not_overlapping: hoursApart,
  standing_offer_not_negative: notNegative('An offer'),
  travel_km_not_negative: notNegative('A distance'),
  travel_minutes_not_negative: notNegative('A time on the road'),
  enclosure_size_rank_in_range: inRange('A size rank', 1, 9),
  enclosure_width_positive: positive('The width'),
  enclosure_length_positive: positive('The length'),
  enclosure_height_positive: positive('The height'),
  enclosure_turnaround_not_negative: notNegative('The time for cleaning'),
  stocking_places_positive: said('At least one place', 'Take the company out where none is taken.'),
  year_arrivals_not_negative: notNegative('The number of animals in a year'),
  year_arrivals_twelve_months: said('A year has twelve shares, one a month'),
  year_arrivals_some_size: said('Say which share of arrivals brings one animal'),
  person_email_is_lower_case: said('An e-mail address is written in small letters'),
  person_email_once: said(
    'Somebody signs in with this e-mail already',
    'Look for that person, who may be switched off.',
  ),
  person_role_names_its_place: said(
    'A carer belongs to a centre, a vet to a practice, nobody else to either',
    'Choose the place that goes with the role.',
  ),
  person_role_once: said('This person has that role already', 'Nothing more is to be done.'),
  policy_kappa_is_a_share: inRange('The weight of later stages', 0, 1),
  policy_omega_not_negative: notNegative('The weight of tonight'),
  policy_transfer_not_negative: notNegative('The cost of a transfer'),
  policy_km_positive: positive('The distance worth a place-day'),
  policy_refusal_not_negative: notNegative('The cost of a refusal'),
  policy_redirect_not_negative: notNegative('The cost of a redirect'),
  policy_keep_advice_not_negative: notNegative('The cost of keeping till morning'),
  policy_keep_tomorrow_not_negative: notNegative('The cost of keeping till morning'),
  policy_keep_today_not_negative: notNegative('The cost of keeping till morning'),
  policy_tight_chance_is_a_share: said('The chance that makes a day tight lies above 0 % and below 100 %'),
  policy_hold_minutes_positive: positive('The time a place is kept'),
  policy_late_minutes_in_range: inRange('The time after which a driver is late', 1, 1440),
  policy_ask_lapse_positive: positive('The time an ask waits'),
  policy_finder_days_positive: positive("The time a finder's number is kept"),
  species_size_rank_in_range: inRange('A size rank', 1, 9),
  species_flight_length_positive: positive('The flight length'),
  species_mass_in_order: said(
    'The heaviest adult is lighter than the lightest',
    'Change one of the two weights.',
  ),
  species_young_from_is_a_month: inRange('A month', 1, 12),
  species_young_to_is_a_month: inRange('A month', 1, 12),
  care_plan_stage_no_positive: said('Stages are numbered from 1'),
  care_plan_stage_gate_opens_is_month_day: monthDay,
  care_plan_stage_gate_closes_is_month_day: monthDay,
  care_plan_stage_has_a_length: said(
    'A stage has a usual time and a longer one that nine of ten keep, or a day of the year on which it opens',
  ),
  care_plan_stage_shares_sum_to_one: said('The shares of going on, died, euthanased and left add up to 1'),
  care_plan_stage_exit_times_in_order: said('Nine of ten take longer than the usual time'),
  care_plan_gate_interval_positive: positive('The days between two checks'),
  casualty_plan_version_positive: said('Versions are numbered from 1'),
  casualty_stage_no_positive: said('Stages are numbered from 1'),
  check_due_interval_positive: positive('The days between two checks'),
}
