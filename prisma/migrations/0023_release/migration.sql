-- Releases planned and done, what stood against one that happened, and what the fit wait for.

create table release (
  id int primary key generated always as identity,
  state text not null default 'planned' constraint release_state_known check (state in ('planned', 'done', 'called-off')),
  at timestamptz not null,
  site text not null,
  latitude double precision constraint release_latitude_in_range check (latitude between -90 and 90),
  longitude double precision constraint release_longitude_in_range check (longitude between -180 and 180),
  way text not null constraint release_way_known check (way in ('hard', 'soft')),
  releaser text not null,
  constraint release_site_has_both_numbers check ((latitude is null) = (longitude is null)),
  constraint release_within_limits check (fits(site, 1, 200) and fits(releaser, 1, 80))
);
create index release_planned on release (at) where state = 'planned';

create table release_animal (
  release_id int not null references release,
  casualty_id int not null references casualty,
  state text not null default 'planned' constraint release_animal_state_known check (state in ('planned', 'gone', 'stayed')),
  ring text,
  keeping_id int references keeping,
  primary key (release_id, casualty_id),
  constraint release_animal_gone_by_a_fact check ((state = 'gone') = (keeping_id is not null)),
  constraint release_animal_within_limits check (fits(ring, 1, 40))
);
create unique index release_animal_planned_once on release_animal (casualty_id) where state = 'planned';
create index release_animal_by_keeping on release_animal (keeping_id);

-- What stood against a release when it was recorded: the fact stands, and this beside it.
create table release_against (
  keeping_id int not null references keeping,
  rule text not null constraint release_against_rule_known check (rule in ('gate', 'implant', 'law', 'season', 'vet')),
  what text not null,
  primary key (keeping_id, rule, what),
  constraint release_against_within_limits check (fits(what, 0, 500))
);
create trigger release_against_is_append_only before update or delete on release_against
  for each row execute function append_only();
create trigger release_against_is_never_emptied before truncate on release_against execute function append_only();

-- What an animal that is fit to go waits for; the newest line holds, an empty one says that it waits for nothing.
create table release_wait (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  at timestamptz not null,
  waits_for text[] not null constraint release_wait_for_known
    check (waits_for <@ array['weather', 'driver', 'ring', 'permission', 'group'])
);
create index release_wait_by_casualty on release_wait (casualty_id, id);
create trigger release_wait_is_append_only before update or delete on release_wait
  for each row execute function append_only();
create trigger release_wait_is_never_emptied before truncate on release_wait execute function append_only();
