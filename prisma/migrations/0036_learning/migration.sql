-- What the network's records teach about stages of care, as a worker worked it out. A run is written whole or not at all and
-- never changed; the newest is the one that forecasts read. Numbers of a day are eight bytes each, lowest byte first.
create table learning_run (
  id int primary key generated always as identity,
  model_version text not null,
  as_of date not null, -- the first day that was not over
  learned_at timestamptz not null,
  revision int not null, -- of the network: facts up to this one were learned from
  knowledge_revision int not null, -- of the trade's plans that they were learned against
  plan_weight double precision not null,
  seed int not null,
  cells int not null,
  animals int not null,
  inputs_digest text not null, -- of the stays that were learned from
  digest text not null, -- of all hazards
  constraint learning_run_weight_positive check (plan_weight > 0 and plan_weight < 'Infinity'),
  constraint learning_run_counts_not_negative check (least(revision, knowledge_revision, cells, animals) >= 0),
  constraint learning_run_digests_are_sha256 check (inputs_digest ~ '^[0-9a-f]{64}$' and digest ~ '^[0-9a-f]{64}$'),
  constraint learning_run_within_limits check (fits(model_version, 1, 40))
);

create table learned_stage (
  run_id int not null references learning_run on delete cascade,
  key text not null,
  plan_ids text[] not null,
  stage_no int not null constraint learned_stage_no_positive check (stage_no > 0),
  stage text not null constraint learned_stage_stage_known check (stage in
    ('critical care', 'quarantine', 'restricted activity', 'limited activity', 'unlimited activity', 'overwintering')),
  condition text not null,
  season text constraint learned_stage_season_known check (season in ('winter', 'spring', 'summer', 'autumn')),
  estimate jsonb not null, -- what the plan said
  days int not null,
  animals int not null constraint learned_stage_animals_not_negative check (animals >= 0),
  stretch_mean double precision not null, -- times the plan's, with the range of four chances in five
  stretch_low double precision not null,
  stretch_high double precision not null,
  early_odds double precision not null, -- of a death, over the plan's
  lean double precision not null constraint learned_stage_lean_is_a_share check (lean between 0 and 1),
  died bytea not null, -- chances of each day, by days since entry
  euthanased bytea not null,
  left_care bytea not null,
  passes bytea not null, -- by days since a date gate let pass
  beyond jsonb not null,
  opens_after int not null, -- days to the date gate of the stay that the curves are of; 0 without one
  curve_plan bytea not null, -- still in the stage, by days since entry
  curve_learned bytea not null,
  curve_low bytea not null,
  curve_high bytea not null,
  at_risk bytea not null, -- animals
  primary key (run_id, key),
  constraint learned_stage_has_days check (days between 1 and 1536),
  constraint learned_stage_hazards_have_its_days check (octet_length(died) = 8 * days and octet_length(euthanased) = 8 * days
    and octet_length(left_care) = 8 * days and octet_length(passes) = 8 * days),
  constraint learned_stage_curves_of_one_length check (octet_length(curve_plan) between 8 and 8 * days
    and octet_length(curve_plan) % 8 = 0 and octet_length(curve_learned) = octet_length(curve_plan)
    and octet_length(curve_low) = octet_length(curve_plan) and octet_length(curve_high) = octet_length(curve_plan)
    and octet_length(at_risk) = octet_length(curve_plan)),
  constraint learned_stage_stretch_positive check (stretch_low > 0 and stretch_low <= stretch_high and stretch_mean > 0
    and greatest(stretch_mean, stretch_high) < 'Infinity'),
  constraint learned_stage_odds_positive check (early_odds > 0 and early_odds < 'Infinity'),
  constraint learned_stage_opens_not_before_entry check (opens_after >= 0),
  constraint learned_stage_names_plans check (cardinality(plan_ids) > 0)
);
