-- The foundation: what the network is (centres, housing, people, knowledge), what it promises, what happened.
-- Constraints are named as the rule they keep; prisma/described.sql is the generated picture of the result.
create extension if not exists btree_gist;

-- The network and its policy ------------------------------------------------------------------------------

create table network (
  id int primary key default 1 constraint network_is_one check (id = 1),
  name text not null,
  line_phone text not null,
  time_zone text not null,
  jurisdiction text not null,
  authority_name text not null,
  authority_phone text not null,
  revision int not null default 0,
  demo_made_on date
);

create table policy (
  id int primary key default 1 constraint policy_is_one check (id = 1),
  preset text not null constraint policy_preset_known check (preset in ('fewer-moves', 'balanced', 'proper-place-first')),
  kappa double precision not null constraint policy_kappa_is_a_share check (kappa between 0 and 1),
  omega double precision not null constraint policy_omega_not_negative check (omega >= 0),
  transfer_place_days double precision not null constraint policy_transfer_not_negative check (transfer_place_days >= 0),
  km_per_place_day double precision not null constraint policy_km_positive check (km_per_place_day > 0),
  refusal_place_days double precision not null constraint policy_refusal_not_negative check (refusal_place_days >= 0),
  redirect_place_days double precision not null constraint policy_redirect_not_negative check (redirect_place_days >= 0),
  keep_advice_place_days double precision not null constraint policy_keep_advice_not_negative check (keep_advice_place_days >= 0),
  keep_tomorrow_place_days double precision not null constraint policy_keep_tomorrow_not_negative check (keep_tomorrow_place_days >= 0),
  keep_today_place_days double precision not null constraint policy_keep_today_not_negative check (keep_today_place_days >= 0),
  tight_chance double precision not null constraint policy_tight_chance_is_a_share check (tight_chance > 0 and tight_chance < 1),
  hold_minutes int not null constraint policy_hold_minutes_positive check (hold_minutes > 0),
  ask_lapse_minutes int not null constraint policy_ask_lapse_positive check (ask_lapse_minutes > 0),
  finder_days int not null constraint policy_finder_days_positive check (finder_days > 0),
  version int not null default 1
);

-- Knowledge of the trade: every number carries its mark ----------------------------------------------------

create table reference_key (
  kind text not null constraint reference_key_kind_known check (kind in ('housing', 'handling', 'licence', 'company')),
  key text not null,
  meaning text not null,
  jurisdiction text,
  clock_days int[] not null default '{}',
  mark text not null,
  reviewed_on date,
  primary key (kind, key)
);

create table company (
  slug text primary key,
  members text not null,
  preys text constraint company_preys_known check (preys in ('predator', 'prey')),
  mark text not null
);

create table species_group (
  slug text primary key,
  name text not null constraint species_group_name_once unique,
  class text not null constraint species_group_class_known check (class in ('bird', 'mammal')),
  default_company text not null references company,
  housing jsonb not null, -- care stage -> housing types in order of preference
  stock jsonb not null, -- housing type -> animals of one company in a typical enclosure
  stock_mark text not null,
  minutes jsonb not null, -- care stage (or hand-rearing) -> carer minutes a day for one animal
  minutes_mark text not null,
  temperament text not null,
  is_high_risk_influenza boolean not null default false
);

create table species (
  slug text primary key,
  common_name text not null constraint species_common_name_once unique,
  also_called text[] not null default '{}',
  scientific_name text,
  class text not null constraint species_class_known check (class in ('bird', 'mammal')),
  group_slug text not null references species_group,
  mass_g_low double precision,
  mass_g_high double precision,
  mass_mark text not null,
  size_rank int not null constraint species_size_rank_in_range check (size_rank between 1 and 9),
  flight_length_min_m double precision constraint species_flight_length_positive check (flight_length_min_m > 0),
  flight_mark text,
  adult_alone text not null constraint species_adult_alone_known check (adult_alone in ('yes', 'season', 'no')),
  company_slug text not null references company,
  preys text constraint species_preys_known check (preys in ('predator', 'prey')),
  is_imprint_risk boolean not null,
  young_from_month int constraint species_young_from_is_a_month check (young_from_month between 1 and 12),
  young_to_month int constraint species_young_to_is_a_month check (young_to_month between 1 and 12),
  young_mark text,
  main_reasons text[] not null default '{}',
  handling_cautions text[] not null default '{}',
  licence_keys text[] not null default '{}',
  licence_mark text,
  release_season_note text,
  note text,
  is_stand_in boolean not null default false,
  is_active boolean not null default true,
  version int not null default 1,
  constraint species_mass_in_order check (mass_g_low <= mass_g_high)
);
create index species_by_group on species (group_slug);

create table condition (
  slug text primary key,
  name text not null constraint condition_name_once unique,
  kind text not null constraint condition_kind_known check (kind in ('reason', 'finding')),
  words text[] not null default '{}',
  applies_to text not null constraint condition_applies_to_known check (applies_to in ('bird', 'mammal', 'both')),
  default_urgency text not null constraint condition_urgency_known check (default_urgency in ('now', 'today', 'tomorrow', 'advice')),
  mark_urgency text not null,
  may_need_surgeon text,
  mark_surgeon text,
  deadline_note text,
  mark_deadline text,
  quarantine text not null constraint condition_quarantine_known check (quarantine in ('none', 'screen', 'isolate')),
  mark_quarantine text,
  asks_first text[] not null default '{}',
  cautions text[] not null default '{}',
  is_active boolean not null default true,
  version int not null default 1
);

create table plan_group (
  slug text primary key,
  class text not null constraint plan_group_class_known check (class in ('bird', 'mammal')),
  groups text[] not null default '{}',
  species text[] not null default '{}',
  age text constraint plan_group_age_known check (age in ('adult', 'young')),
  wider text references plan_group
);

create table care_plan (
  id text primary key,
  condition_slug text not null references condition,
  plan_group_slug text not null references plan_group,
  severity text not null,
  treatment text not null,
  is_active boolean not null default true,
  version int not null default 1,
  constraint care_plan_once unique (condition_slug, plan_group_slug, severity, treatment)
);

create table care_plan_stage (
  plan_id text not null references care_plan on delete cascade,
  stage_no int not null constraint care_plan_stage_no_positive check (stage_no > 0),
  stage text not null constraint care_plan_stage_known check (stage in
    ('critical care', 'quarantine', 'restricted activity', 'limited activity', 'unlimited activity', 'overwintering')),
  housing_type text not null constraint care_plan_stage_housing_known check (housing_type in
    ('intensive-care', 'isolation', 'hospital-cage', 'indoor-pen', 'sheltered-aviary', 'flight-aviary', 'pool-pen', 'outdoor-pen')),
  min_size_note text,
  ready_median_days double precision,
  ready_p90_days double precision,
  calendar_gate text,
  gate_opens text constraint care_plan_stage_gate_opens_is_month_day check (gate_opens ~ '^\d{2}-\d{2}$'),
  gate_closes text constraint care_plan_stage_gate_closes_is_month_day check (gate_closes ~ '^\d{2}-\d{2}$'),
  gate_min_days double precision,
  gate_lag_median_days double precision,
  gate_lag_p90_days double precision,
  goes_on_means text not null,
  goes_on double precision not null,
  died double precision not null,
  euthanased double precision not null,
  left_care double precision not null,
  died_median_days double precision,
  died_p90_days double precision,
  euthanased_median_days double precision,
  euthanased_p90_days double precision,
  carer_minutes_day double precision,
  mark_size text,
  mark_durations text,
  mark_exit_times text,
  mark_shares text,
  mark_minutes text,
  note text,
  primary key (plan_id, stage_no),
  constraint care_plan_stage_shares_sum_to_one check (abs(goes_on + died + euthanased + left_care - 1) < 1e-6
    and least(goes_on, died, euthanased, left_care) >= 0),
  constraint care_plan_stage_has_a_length check (gate_opens is not null or (ready_median_days > 0 and ready_p90_days > ready_median_days)),
  constraint care_plan_stage_exit_times_in_order check (
    (died_median_days is null or (died_median_days > 0 and died_p90_days > died_median_days)) and
    (euthanased_median_days is null or (euthanased_median_days > 0 and euthanased_p90_days > euthanased_median_days)))
);

create table care_plan_gate (
  id int primary key generated always as identity,
  plan_id text not null references care_plan on delete cascade,
  stage text not null,
  check_slug text not null,
  what text not null,
  offset_days int,
  interval_days int constraint care_plan_gate_interval_positive check (interval_days > 0),
  anchor text not null,
  required_for text,
  who text not null,
  mark text not null,
  note text
);
create index care_plan_gate_by_plan on care_plan_gate (plan_id);

create table gazetteer_place (
  id int primary key generated always as identity,
  name text not null,
  kind text not null constraint gazetteer_place_kind_known check (kind in ('town', 'village', 'road', 'landmark', 'water')),
  also_called text[] not null default '{}',
  latitude double precision not null constraint gazetteer_place_latitude_in_range check (latitude between -90 and 90),
  longitude double precision not null constraint gazetteer_place_longitude_in_range check (longitude between -180 and 180),
  constraint gazetteer_place_name_once unique (name, kind)
);

-- Centres, their doors, rooms and enclosures ---------------------------------------------------------------

create table centre (
  id int primary key generated always as identity,
  name text not null constraint centre_name_once unique,
  about text not null default '',
  phone text not null,
  latitude double precision not null constraint centre_latitude_in_range check (latitude between -90 and 90),
  longitude double precision not null constraint centre_longitude_in_range check (longitude between -180 and 180),
  night_door text not null constraint centre_night_door_known check (night_door in ('staffed', 'on-call', 'shut')),
  night_name text,
  night_phone text,
  counted_at timestamptz,
  is_active boolean not null default true,
  version int not null default 1,
  constraint centre_on_call_names_who_opens check (night_door <> 'on-call' or (night_name is not null and night_phone is not null))
);

create table centre_hours (
  id int primary key generated always as identity,
  centre_id int not null references centre on delete cascade,
  weekday int not null constraint centre_hours_weekday_in_range check (weekday between 1 and 7),
  opens_minute int not null,
  closes_minute int not null,
  constraint centre_hours_in_order check (opens_minute >= 0 and opens_minute < closes_minute and closes_minute <= 1440),
  constraint centre_hours_not_overlapping exclude using gist
    (centre_id with =, weekday with =, int4range(opens_minute, closes_minute) with &&)
);

create table centre_takes (
  centre_id int not null references centre on delete cascade,
  group_slug text not null references species_group,
  primary key (centre_id, group_slug)
);

create table standing_offer (
  centre_id int not null references centre on delete cascade,
  group_slug text not null references species_group,
  places int not null constraint standing_offer_not_negative check (places >= 0),
  primary key (centre_id, group_slug)
);

create table movement_stop (
  id int primary key generated always as identity,
  centre_id int not null references centre,
  site_state text not null constraint movement_stop_state_known check (site_state in
    ('closed-to-high-risk', 'isolation-full', 'no-movement')),
  covers_class text constraint movement_stop_class_known check (covers_class in ('bird', 'mammal')), -- null: all animals
  starts_at timestamptz not null,
  ends_at timestamptz,
  reason text not null,
  constraint movement_stop_ends_after_it_starts check (ends_at > starts_at),
  constraint movement_stop_one_at_a_time exclude using gist (centre_id with =, tstzrange(starts_at, ends_at) with &&)
);

create table travel (
  from_centre_id int not null references centre on delete cascade,
  to_centre_id int not null references centre on delete cascade,
  km double precision not null constraint travel_km_not_negative check (km >= 0),
  minutes double precision not null constraint travel_minutes_not_negative check (minutes >= 0),
  primary key (from_centre_id, to_centre_id)
);

create table room (
  id int primary key generated always as identity,
  centre_id int not null references centre,
  name text not null,
  kind text not null constraint room_kind_known check (kind in ('ward', 'isolation', 'outdoors')),
  walking_order int not null,
  predators_apart boolean not null default false,
  is_active boolean not null default true,
  version int not null default 1,
  constraint room_name_once unique (centre_id, name),
  constraint room_of_centre_once unique (id, centre_id)
);

create table enclosure (
  id int primary key generated always as identity,
  room_id int not null,
  centre_id int not null references centre,
  name text not null,
  housing_type text not null constraint enclosure_housing_known check (housing_type in
    ('intensive-care', 'isolation', 'hospital-cage', 'indoor-pen', 'sheltered-aviary', 'flight-aviary', 'pool-pen', 'outdoor-pen')),
  size_rank int not null constraint enclosure_size_rank_in_range check (size_rank between 1 and 9),
  width_m double precision not null constraint enclosure_width_positive check (width_m > 0),
  length_m double precision not null constraint enclosure_length_positive check (length_m > 0),
  height_m double precision not null constraint enclosure_height_positive check (height_m > 0),
  features text[] not null default '{}',
  turnaround_min int not null default 0 constraint enclosure_turnaround_not_negative check (turnaround_min >= 0),
  dries_after text not null default 'company' constraint enclosure_dries_after_known check (dries_after in ('each', 'company')),
  walking_order int not null,
  is_active boolean not null default true,
  version int not null default 1,
  settled_at timestamptz, -- until when time passing by has been worked into its claims
  constraint enclosure_in_a_room_of_its_centre foreign key (room_id, centre_id) references room (id, centre_id),
  constraint enclosure_name_once unique (centre_id, name)
);
create index enclosure_by_room on enclosure (room_id);

create table stocking (
  enclosure_id int not null references enclosure on delete cascade,
  company_slug text not null references company,
  places int not null constraint stocking_places_positive check (places > 0),
  primary key (enclosure_id, company_slug)
);

create table year_arrivals (
  centre_id int not null references centre on delete cascade,
  group_slug text not null references species_group,
  animals_per_year double precision not null constraint year_arrivals_not_negative check (animals_per_year >= 0),
  month_shares double precision[] not null constraint year_arrivals_twelve_months check (cardinality(month_shares) = 12),
  event_sizes double precision[] not null constraint year_arrivals_some_size check (cardinality(event_sizes) >= 1), -- share of arrivals that bring 1, 2, ... animals
  mark text not null,
  version int not null default 1,
  primary key (centre_id, group_slug)
);

-- Practices, places outside, drivers, people ----------------------------------------------------------------

create table practice (
  id int primary key generated always as identity,
  name text not null constraint practice_name_once unique,
  phone text not null,
  latitude double precision not null constraint practice_latitude_in_range check (latitude between -90 and 90),
  longitude double precision not null constraint practice_longitude_in_range check (longitude between -180 and 180),
  has_night_cover boolean not null default false,
  night_phone text,
  note text not null default '',
  is_active boolean not null default true,
  version int not null default 1,
  constraint practice_night_cover_has_a_number check (not has_night_cover or night_phone is not null)
);

create table practice_hours (
  id int primary key generated always as identity,
  practice_id int not null references practice on delete cascade,
  weekday int not null constraint practice_hours_weekday_in_range check (weekday between 1 and 7),
  opens_minute int not null,
  closes_minute int not null,
  constraint practice_hours_in_order check (opens_minute >= 0 and opens_minute < closes_minute and closes_minute <= 1440),
  constraint practice_hours_not_overlapping exclude using gist
    (practice_id with =, weekday with =, int4range(opens_minute, closes_minute) with &&)
);

create table practice_sees (
  practice_id int not null references practice on delete cascade,
  group_slug text not null references species_group,
  primary key (practice_id, group_slug)
);

create table outside_place (
  id int primary key generated always as identity,
  name text not null constraint outside_place_name_once unique,
  phone text not null,
  takes_words text not null,
  hours_words text not null,
  latitude double precision not null constraint outside_place_latitude_in_range check (latitude between -90 and 90),
  longitude double precision not null constraint outside_place_longitude_in_range check (longitude between -180 and 180),
  is_active boolean not null default true,
  version int not null default 1
);

create table outside_place_takes (
  outside_place_id int not null references outside_place on delete cascade,
  group_slug text not null references species_group,
  primary key (outside_place_id, group_slug)
);

create table person (
  id int primary key generated always as identity,
  name text not null,
  email text not null,
  password_hash text not null,
  phone text,
  is_active boolean not null default true,
  session_epoch int not null default 1,
  version int not null default 1,
  constraint person_email_is_lower_case check (email = lower(email)),
  constraint person_email_once unique (email)
);

create table person_role (
  id int primary key generated always as identity,
  person_id int not null references person on delete cascade,
  role text not null constraint person_role_known check (role in ('coordinator', 'carer', 'vet', 'manager', 'administrator')),
  centre_id int references centre,
  practice_id int references practice,
  constraint person_role_names_its_place check ((role = 'carer') = (centre_id is not null) and (role = 'vet') = (practice_id is not null)),
  constraint person_role_once unique nulls not distinct (person_id, role, centre_id, practice_id)
);

create table driver (
  id int primary key generated always as identity,
  name text not null,
  phone text not null,
  is_active boolean not null default true
);

-- Calls and what was decided ----------------------------------------------------------------------------------

create table finder (
  id int primary key generated always as identity,
  name text,
  phone text,
  expires_on date not null,
  erased_at timestamptz,
  constraint finder_erased_is_empty check (erased_at is null or (name is null and phone is null))
);

create table call (
  id int primary key generated always as identity,
  opened_at timestamptz not null,
  opened_by int references person,
  state text not null default 'open' constraint call_state_known check (state in ('open', 'parked', 'closed')),
  closed_at timestamptz,
  facts jsonb not null default '{}', -- the call sheet as typed, read through its zod schema
  finder_id int references finder,
  version int not null default 1,
  constraint call_closed_has_a_time check ((state = 'closed') = (closed_at is not null))
);
create index call_open on call (opened_at) where state <> 'closed';

create table call_back (
  id int primary key generated always as identity,
  call_id int not null references call,
  due_at timestamptz not null,
  owner_id int not null references person,
  what text not null,
  done_at timestamptz
);

create table arrival (
  id int primary key generated always as identity,
  call_id int references call,
  at timestamptz not null,
  found_words text not null default '',
  latitude double precision,
  longitude double precision,
  finder_id int references finder
);

create table decision (
  id int primary key generated always as identity,
  call_id int not null references call,
  arrival_id int references arrival,
  at timestamptz not null,
  decided_by int references person,
  kind text not null constraint decision_kind_known check (kind in
    ('admit', 'admit-and-move', 'vet', 'keep-till-morning', 'redirect', 'advice', 'outside-examination', 'report')),
  taken_key text not null,
  options jsonb not null, -- every option that was shown, with its terms
  inputs jsonb not null, -- network revision, policy and facts they were computed from
  reason text
);
create index decision_by_call on decision (call_id);

create table unmet_demand (
  id int primary key generated always as identity,
  call_id int not null references call,
  at timestamptz not null,
  kind text not null constraint unmet_demand_kind_known check (kind in ('redirect', 'advice', 'keep-till-morning')),
  group_slug text not null references species_group,
  animals int not null constraint unmet_demand_animals_positive check (animals > 0),
  reason text not null
);

-- Casualties ----------------------------------------------------------------------------------------------------

create table batch (
  id int primary key generated always as identity,
  arrival_id int not null references arrival
);

create table casualty (
  id int primary key generated always as identity,
  reference text not null, -- a word and two or three digits, said on the phone
  given_on date not null,
  arrival_id int not null references arrival,
  batch_id int references batch,
  member_no int,
  species_slug text not null references species, -- projection of the newest identification
  age text not null constraint casualty_age_known check (age in ('adult', 'young', 'unknown')),
  company_slug text not null references company,
  is_alone boolean not null default false, -- must have an enclosure to itself
  is_disease_suspect boolean not null default false,
  authority_leave_at timestamptz,
  authority_leave_words text,
  constraint casualty_reference_not_reused_for_two_years exclude using gist
    (reference with =, daterange(given_on, given_on + 730) with &&),
  constraint casualty_member_has_a_batch check (member_no is null or batch_id is not null)
);
create index casualty_by_arrival on casualty (arrival_id);
create index casualty_by_batch on casualty (batch_id);

-- One row a transaction that changes what is known; the counter is taken last, so revision equals commit order.
create table entry (
  id int primary key generated always as identity,
  revision int constraint entry_revision_once unique,
  entered_at timestamptz not null,
  entered_by int references person,
  device_key text constraint entry_device_key_once unique,
  reason text,
  erased_at timestamptz
);

create table identification (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  species_slug text not null references species,
  age text not null constraint identification_age_known check (age in ('adult', 'young', 'unknown')),
  supersedes int references identification,
  constraint identification_superseded_once unique (supersedes)
);
create index identification_by_casualty on identification (casualty_id);

create table finding (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  condition_slug text not null references condition,
  severity text not null default 'any',
  noted_at timestamptz not null,
  is_void boolean not null default false,
  supersedes int references finding,
  constraint finding_superseded_once unique (supersedes)
);
create index finding_by_casualty on finding (casualty_id);

create table casualty_plan (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  version_no int not null constraint casualty_plan_version_positive check (version_no > 0),
  plan_ids text[] not null, -- the care plans it was combined from
  because text not null,
  constraint casualty_plan_version_once unique (casualty_id, version_no)
);

create table casualty_stage (
  casualty_plan_id int not null references casualty_plan on delete cascade,
  stage_no int not null constraint casualty_stage_no_positive check (stage_no > 0),
  stage text not null constraint casualty_stage_known check (stage in
    ('critical care', 'quarantine', 'restricted activity', 'limited activity', 'unlimited activity', 'overwintering')),
  housing_type text not null constraint casualty_stage_housing_known check (housing_type in
    ('intensive-care', 'isolation', 'hospital-cage', 'indoor-pen', 'sheltered-aviary', 'flight-aviary', 'pool-pen', 'outdoor-pen')),
  housing_also text[] not null default '{}', -- other housing that serves, in order of preference
  features text[] not null default '{}', -- what the enclosure must have beside its type: pool, flight
  centre_id int references centre, -- where it is expected to spend the stage; null: where it is
  estimate jsonb not null, -- the stage's estimate, read through its zod schema
  marks jsonb not null, -- source mark of each number
  primary key (casualty_plan_id, stage_no)
);

create table stage_fact (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  stage_no int not null,
  kind text not null constraint stage_fact_kind_known check (kind in ('began', 'ready')),
  at timestamptz not null,
  is_void boolean not null default false,
  supersedes int references stage_fact,
  constraint stage_fact_superseded_once unique (supersedes)
);
create index stage_fact_by_casualty on stage_fact (casualty_id);

create table check_due (
  id int primary key generated always as identity,
  casualty_id int not null references casualty,
  stage_no int not null,
  check_slug text not null,
  what text not null,
  due_on date,
  interval_days int constraint check_due_interval_positive check (interval_days > 0),
  required_for text,
  who text not null,
  mark text not null,
  done_at timestamptz,
  done_by int references person,
  passed boolean,
  result text,
  called_off_at timestamptz,
  entry_id int references entry,
  constraint check_due_done_has_a_result check ((done_at is null) = (passed is null))
);
create index check_due_open on check_due (due_on) where done_at is null and called_off_at is null;
create index check_due_by_casualty on check_due (casualty_id);

create table weight (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  at timestamptz not null,
  grams double precision not null constraint weight_positive check (grams > 0)
);
create index weight_by_casualty on weight (casualty_id, at);

create table note (
  id int primary key generated always as identity,
  casualty_id int references casualty,
  call_id int references call,
  at timestamptz not null,
  written_by int references person,
  words text,
  erased_at timestamptz,
  constraint note_is_about_something check (num_nonnulls(casualty_id, call_id) >= 1),
  constraint note_erased_is_empty check ((erased_at is not null) = (words is null))
);
create index note_by_casualty on note (casualty_id);

-- Referral and asks -----------------------------------------------------------------------------------------------

create table referral (
  id int primary key generated always as identity,
  casualty_id int references casualty,
  call_id int references call,
  what text not null,
  opened_at timestamptz not null,
  closed_at timestamptz
);

create table ask (
  id int primary key generated always as identity,
  referral_id int references referral,
  call_id int references call,
  casualty_id int references casualty,
  centre_id int references centre,
  practice_id int references practice,
  state text not null constraint ask_state_known check (state in ('written', 'put', 'yes', 'no', 'unanswered', 'taken-back')),
  put_at timestamptz,
  lapses_at timestamptz,
  answered_at timestamptz,
  answered_by_words text,
  constraint ask_is_put_to_one check (num_nonnulls(centre_id, practice_id) = 1),
  constraint ask_answer_has_a_time check ((state in ('yes', 'no')) = (answered_at is not null))
);
create unique index ask_one_yes_per_referral on ask (referral_id) where state = 'yes';
create index ask_due on ask (lapses_at) where state = 'put';

-- The heart: change points, whereabouts, claims ---------------------------------------------------------------------

create table keeping (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  since timestamptz not null,
  since_earliest timestamptz,
  since_latest timestamptz,
  keeper text not null constraint keeping_keeper_known check (keeper in ('finder', 'driver', 'practice', 'centre', 'nobody')),
  driver_id int references driver,
  practice_id int references practice,
  centre_id int references centre,
  enclosure_id int references enclosure,
  place_no int constraint keeping_place_positive check (place_no > 0),
  outcome text constraint keeping_outcome_known check (outcome in
    ('released', 'died', 'euthanased', 'dead on arrival', 'reunited', 'escaped', 'transferred out', 'permanent care', 'unknown')),
  override_reason text,
  is_void boolean not null default false,
  supersedes int references keeping,
  first_id int not null references keeping, -- the first version of this fact; filled by trigger, gives the order
  erased_at timestamptz,
  constraint keeping_names_one_keeper check (
    (keeper = 'finder' and num_nonnulls(driver_id, practice_id, centre_id, enclosure_id, outcome) = 0)
    or (keeper = 'driver' and driver_id is not null and num_nonnulls(practice_id, centre_id, enclosure_id, outcome) = 0)
    or (keeper = 'practice' and practice_id is not null and num_nonnulls(driver_id, centre_id, enclosure_id, outcome) = 0)
    or (keeper = 'centre' and centre_id is not null and num_nonnulls(driver_id, practice_id, outcome) = 0)
    or (keeper = 'nobody' and outcome is not null and num_nonnulls(driver_id, practice_id, centre_id, enclosure_id) = 0)),
  constraint keeping_within_its_precision check (since_earliest <= since and since <= since_latest),
  constraint keeping_superseded_once unique (supersedes)
);
create index keeping_by_casualty on keeping (casualty_id, since, id);
create index keeping_by_enclosure on keeping (enclosure_id, since);

create table whereabouts (
  keeping_id int primary key references keeping,
  first_id int not null references keeping,
  casualty_id int not null references casualty,
  keeper text not null,
  centre_id int references centre,
  enclosure_id int references enclosure,
  since timestamptz not null,
  until timestamptz,
  constraint whereabouts_one_keeper exclude using gist
    (casualty_id with =, tstzrange(since, until) with &&) deferrable initially deferred
);
create index whereabouts_by_enclosure on whereabouts (enclosure_id, until);
create index whereabouts_by_casualty on whereabouts (casualty_id, since);
create index whereabouts_in_care on whereabouts (centre_id) where until is null;

create table departure (
  id int primary key generated always as identity,
  entry_id int references entry,
  casualty_id int not null references casualty,
  at timestamptz not null,
  state text not null default 'booked' constraint departure_state_known check (state in ('booked', 'gone', 'slipped', 'called-off'))
);
create unique index departure_booked_once on departure (casualty_id) where state = 'booked';

create table closure (
  id int primary key generated always as identity,
  entry_id int references entry,
  enclosure_id int not null references enclosure,
  starts_at timestamptz not null,
  ends_at timestamptz,
  reason text not null,
  lifted_at timestamptz,
  constraint closure_ends_after_it_starts check (ends_at > starts_at)
);
create index closure_by_enclosure on closure (enclosure_id);

-- "Cleaned now": ends whatever was still drying.
create table cleaning (
  id int primary key generated always as identity,
  entry_id int references entry,
  enclosure_id int not null references enclosure,
  at timestamptz not null
);
create index cleaning_by_enclosure on cleaning (enclosure_id, at);

create table claim (
  id int primary key generated always as identity,
  kind text not null constraint claim_kind_known check (kind in ('stay', 'hold', 'closure', 'drying')),
  state text not null default 'live' constraint claim_state_known check (state in
    ('live', 'taken', 'given-up', 'expired', 'broken', 'lifted', 'void')),
  casualty_id int references casualty,
  keeping_id int references keeping,
  closure_id int references closure,
  enclosure_id int not null references enclosure,
  place_no int,
  company_slug text references company,
  company_key text not null, -- who may be in at the same time: company, 'alone:<casualty>', 'arrival:<id>', 'closed'
  room_apart_id int references room, -- set where the room keeps predator and prey apart
  preys text constraint claim_preys_known check (preys in ('predator', 'prey')),
  needs_isolation boolean not null default false,
  housing_type text not null, -- copied from the enclosure by trigger
  starts_at timestamptz not null,
  ends_at timestamptz,
  expected_at timestamptz,
  expires_at timestamptz,
  ended_at timestamptz,
  broken_by int references keeping,
  override_reason text,
  constraint claim_not_empty check (ends_at > starts_at),
  constraint claim_shape check (
    (kind = 'closure' and place_no is null and casualty_id is null and company_key = 'closed')
    or (kind = 'drying' and casualty_id is null)
    or (kind in ('stay', 'hold') and casualty_id is not null and place_no is not null and company_slug is not null and company_key <> 'closed')),
  constraint claim_hold_expires check ((kind = 'hold') = (expires_at is not null)),
  constraint claim_quarantine_in_isolation check (not needs_isolation or housing_type = 'isolation'),
  constraint claim_place_taken_once exclude using gist
    (enclosure_id with =, place_no with =, tstzrange(starts_at, ends_at) with &&) where (state = 'live'),
  constraint claim_company_compatible exclude using gist
    (enclosure_id with =, company_key with <>, tstzrange(starts_at, ends_at) with &&) where (state = 'live'),
  constraint claim_room_apart exclude using gist
    (room_apart_id with =, preys with <>, tstzrange(starts_at, ends_at) with &&) where (state = 'live' and room_apart_id is not null),
  constraint claim_casualty_in_one_place exclude using gist
    (casualty_id with =, tstzrange(starts_at, ends_at) with &&) where (state = 'live' and kind = 'stay') deferrable initially deferred
);
create index claim_due on claim (expires_at) where state = 'live' and kind = 'hold';
create index claim_by_casualty on claim (casualty_id) where state = 'live';
create index claim_by_enclosure on claim (enclosure_id, ends_at) where state = 'live';
create index claim_by_keeping on claim (keeping_id);

-- Who did what ------------------------------------------------------------------------------------------------------

create table audit (
  id int primary key generated always as identity,
  at timestamptz not null,
  person_id int references person,
  actor_words text not null, -- a person's name at the time, or the reason of a system actor
  action text not null,
  subject text not null,
  subject_id text not null,
  columns text[] not null default '{}', -- names, never values
  reason text,
  erased_at timestamptz
);
create index audit_by_subject on audit (subject, subject_id);

create table erasure (
  id int primary key generated always as identity,
  finder_id int not null,
  asked_at timestamptz not null,
  constraint erasure_once unique (finder_id)
);

-- Read only in test mode: the instant that the one clock shows.
create table test_clock (
  id int primary key default 1 constraint test_clock_is_one check (id = 1),
  at timestamptz not null
);
