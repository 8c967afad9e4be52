-- Setup: the upper limits that its forms know hold for every writer, closed lists are closed, and what setup changes
-- about a room or an enclosure leaves the past as it was. Lengths are those of the trimmed text, as forms read it.

-- A room or enclosure that changes marks the claims that still hold or will; a stay that ended keeps what it was in.
-- No clock is read: claims were worked in until settled_at.
create or replace function room_marks_its_claims() returns trigger language plpgsql as $$
begin
  update claim c set enclosure_id = c.enclosure_id
    from enclosure e
   where e.room_id = new.id and c.enclosure_id = e.id and c.state = 'live'
     and (c.ends_at is null or c.ends_at > coalesce(e.settled_at, '-infinity'));
  return new;
end $$;

create or replace function enclosure_marks_its_claims() returns trigger language plpgsql as $$
begin
  update claim set enclosure_id = new.id
   where enclosure_id = new.id and state = 'live'
     and (ends_at is null or ends_at > coalesce(new.settled_at, '-infinity'));
  return new;
end $$;

create function fits(words text, shortest int, longest int) returns boolean language sql immutable as $$
  select char_length(btrim(words)) between shortest and longest
$$;

create function all_fit(words text[], many int, longest int) returns boolean language sql immutable as $$
  select cardinality(words) <= many and coalesce((select bool_and(fits(word, 1, longest)) from unnest(words) word), true)
$$;

create function are_shares(shares double precision[]) returns boolean language sql immutable as $$
  select coalesce(abs(sum(share) - 1) < 1e-6 and min(share) >= 0 and max(share) <= 1, true) from unnest(shares) share
$$;

-- A day of the year without a year, 02-29 among them.
create function is_month_day(words text) returns boolean language sql immutable as $$
  select case when words is null then null when words ~ '^(0[1-9]|1[0-2])-\d{2}$'
    then substr(words, 4)::int between 1 and (array[31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])[substr(words, 1, 2)::int]
    else false end
$$;

alter table policy add constraint policy_within_limits check (
  omega <= 100 and transfer_place_days <= 1000 and km_per_place_day <= 10000 and refusal_place_days <= 1000
  and redirect_place_days <= 1000 and keep_advice_place_days <= 1000 and keep_tomorrow_place_days <= 1000
  and keep_today_place_days <= 1000 and hold_minutes <= 10080 and ask_lapse_minutes <= 10080 and finder_days <= 3650);

alter table centre add constraint centre_within_limits check (
  fits(name, 1, 80) and fits(about, 0, 400) and fits(phone, 3, 40) and fits(night_name, 1, 80) and fits(night_phone, 3, 40));

alter table standing_offer add constraint standing_offer_within_limits check (places <= 1000);

alter table travel add constraint travel_within_limits check (km <= 2000 and minutes <= 2880);

alter table movement_stop add constraint movement_stop_within_limits check (fits(reason, 1, 300));

alter table room add constraint room_within_limits check (
  fits(name, 1, 80) and walking_order between 0 and 10000);

alter table enclosure add constraint enclosure_within_limits check (
  fits(name, 1, 80) and width_m <= 200 and length_m <= 200 and height_m <= 200 and all_fit(features, 20, 40)
  and turnaround_min <= 86400 and walking_order between 0 and 10000);

alter table stocking add constraint stocking_within_limits check (places <= 500);

alter table closure add constraint closure_within_limits check (fits(reason, 1, 300));

alter table year_arrivals
  add constraint year_arrivals_within_limits check (
    animals_per_year <= 100000 and cardinality(event_sizes) <= 60 and fits(mark, 1, 80)),
  add constraint year_arrivals_shares_sum_to_one check (are_shares(month_shares) and are_shares(event_sizes));

alter table practice add constraint practice_within_limits check (
  fits(name, 1, 80) and fits(phone, 3, 40) and fits(night_phone, 3, 40) and fits(note, 0, 400));

alter table outside_place add constraint outside_place_within_limits check (
  fits(name, 1, 80) and fits(phone, 3, 40) and fits(takes_words, 1, 200) and fits(hours_words, 1, 200));

alter table person add constraint person_within_limits check (
  fits(name, 1, 80) and fits(email, 3, 254) and fits(phone, 3, 40));

alter table care_plan
  add constraint care_plan_severity_known check (severity in ('any', 'mild', 'moderate', 'severe', 'closed', 'open')),
  add constraint care_plan_treatment_known check (treatment in ('none', 'conservative', 'surgical'));

alter table care_plan_stage
  drop constraint care_plan_stage_has_a_length, -- let a stage through that had none: not true is not false
  drop constraint care_plan_stage_exit_times_in_order,
  drop constraint care_plan_stage_gate_opens_is_month_day,
  drop constraint care_plan_stage_gate_closes_is_month_day,
  add constraint care_plan_stage_gate_opens_is_month_day check (is_month_day(gate_opens)),
  add constraint care_plan_stage_gate_closes_is_month_day check (is_month_day(gate_closes)),
  add constraint care_plan_stage_has_a_length check (
    gate_opens is not null and num_nonnulls(ready_median_days, ready_p90_days) = 0
    or (ready_median_days > 0 and ready_p90_days > ready_median_days) is true),
  add constraint care_plan_stage_exit_times_in_order check (
    (num_nonnulls(died_median_days, died_p90_days) = 0
      or (died_median_days > 0 and died_p90_days > died_median_days) is true)
    and (num_nonnulls(euthanased_median_days, euthanased_p90_days) = 0
      or (euthanased_median_days > 0 and euthanased_p90_days > euthanased_median_days) is true)),
  add constraint care_plan_stage_gate_has_a_lag check (
    gate_opens is null and num_nonnulls(gate_lag_median_days, gate_lag_p90_days) = 0
    or (gate_lag_median_days > 0 and gate_lag_p90_days > gate_lag_median_days) is true),
  add constraint care_plan_stage_gate_closes_after_it_opens check (gate_closes is null or gate_opens is not null),
  add constraint care_plan_stage_within_limits check (
    greatest(ready_median_days, ready_p90_days, gate_min_days, gate_lag_median_days, gate_lag_p90_days, died_median_days,
      died_p90_days, euthanased_median_days, euthanased_p90_days) <= 1500
    and gate_min_days >= 0 and carer_minutes_day between 0 and 1440
    and fits(min_size_note, 0, 400) and fits(calendar_gate, 0, 60) and fits(note, 0, 400)
    and fits(mark_size, 0, 80) and fits(mark_durations, 0, 80) and fits(mark_exit_times, 0, 80)
    and fits(mark_shares, 0, 80) and fits(mark_minutes, 0, 80));

alter table care_plan_gate
  add constraint care_plan_gate_stage_known check (stage in
    ('critical care', 'quarantine', 'restricted activity', 'limited activity', 'unlimited activity', 'overwintering')),
  add constraint care_plan_gate_anchor_known check (anchor in ('admission', 'surgery', 'stage start', 'stage end')),
  add constraint care_plan_gate_bar_known check (required_for in ('next stage', 'release')),
  add constraint care_plan_gate_checker_known check (who in ('carer', 'nurse', 'vet')),
  add constraint care_plan_gate_within_limits check (
    fits(check_slug, 1, 60) and fits(what, 1, 400) and offset_days between 0 and 1500 and interval_days <= 1500
    and fits(mark, 1, 80) and fits(note, 0, 400));
