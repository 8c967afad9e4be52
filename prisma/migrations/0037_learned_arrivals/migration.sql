-- What a learning run found of arrivals, and what it leaves open of whole pools. Numbers of a day as in 0036: eight bytes
-- each, lowest byte first, from the run's day on.
create table learned_arrivals (
  run_id int not null references learning_run on delete cascade,
  group_slug text not null references species_group on delete cascade,
  events int not null, -- counted, those sent elsewhere among them
  refused int not null,
  level_mean double precision not null, -- times what the centres entered, with the range of four chances in five
  level_low double precision not null,
  level_high double precision not null,
  weekend double precision not null, -- a day of the weekend over one of the week
  theta double precision not null, -- size of the negative binomial of a day
  season_mean double precision not null, -- level of the season that ran, a gamma of this mean and shape
  season_shape double precision not null,
  season_until date not null,
  season_variance double precision not null, -- of the level of a season that nobody saw yet
  events_per_day bytea not null,
  sizes_young double precision[] not null, -- chances of 1, 2, 3 .. animals at once while young come
  sizes_grown double precision[] not null,
  shares jsonb not null, -- of each centre, by season
  primary key (run_id, group_slug),
  constraint learned_arrivals_counted check (events >= 0 and refused between 0 and events),
  constraint learned_arrivals_numbers_positive check (least(level_low, weekend, theta, season_mean, season_shape, season_variance) > 0
    and level_low <= level_mean and level_mean <= level_high
    and greatest(level_high, weekend, theta, season_mean, season_shape, season_variance) < 'Infinity'),
  constraint learned_arrivals_days_of_eight_bytes check (octet_length(events_per_day) % 8 = 0),
  constraint learned_arrivals_some_size check (cardinality(sizes_young) > 0 and cardinality(sizes_grown) > 0)
);

create table learned_doubt (
  run_id int not null references learning_run on delete cascade,
  pool_id text not null,
  size double precision not null,
  variance bytea not null, -- of what is expected, in enclosures squared
  primary key (run_id, pool_id, size),
  constraint learned_doubt_days_of_eight_bytes check (octet_length(variance) % 8 = 0)
);
