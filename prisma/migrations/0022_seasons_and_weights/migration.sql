-- Seasons that bind a species, weights that can be taken back or called right, and what a stage waits for.

-- Migration: released within these days, else it overwinters or moves. Hibernation: under this weight from the first of
-- these days on, it is overwintered.
create table species_season (
  species_slug text not null references species,
  kind text not null constraint species_season_kind_known check (kind in ('migration', 'hibernation')),
  opens text not null constraint species_season_opens_is_month_day check (is_month_day(opens)),
  closes text not null constraint species_season_closes_is_month_day check (is_month_day(closes)),
  grams double precision constraint species_season_grams_positive check (grams > 0),
  mark text not null,
  note text not null default '',
  primary key (species_slug, kind),
  constraint species_season_hibernation_has_a_weight check ((kind = 'hibernation') = (grams is not null)),
  constraint species_season_within_limits check (fits(mark, 1, 80) and fits(note, 0, 200))
);

alter table weight
  add column is_void boolean not null default false,
  add column is_sure boolean not null default false,
  add column supersedes int references weight,
  add constraint weight_superseded_once unique (supersedes);
create trigger weight_is_append_only before update or delete on weight
  for each row execute function append_only();
create trigger weight_is_never_emptied before truncate on weight execute function append_only();

alter table casualty_stage
  add column waits_for text,
  add constraint casualty_stage_within_limits check (fits(waits_for, 1, 60));
update casualty_stage s set waits_for = g.calendar_gate
  from casualty_plan p
  join care_plan_stage g on g.plan_id = any (p.plan_ids) and g.calendar_gate is not null and g.gate_opens is null
 where p.id = s.casualty_plan_id and g.stage = s.stage;
