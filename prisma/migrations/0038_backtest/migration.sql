-- Whether forecasts came true: a run makes them again for days that are over, each from what was known on its day, and keeps
-- the scores of each day as soon as it has them, so that it goes on where it was stopped. One runs at a time.
create table backtest (
  id int primary key generated always as identity,
  begun_at timestamptz not null,
  as_of date not null, -- the first day that was not over
  revision int not null, -- of the network: what came true is told by facts up to this one
  knowledge_revision int not null,
  model_version text not null,
  seed int not null,
  history_from date, -- the first day that is on record; none before the first animal
  origins date[] not null, -- the last days known, in the order in which they are judged
  cancelled_at timestamptz,
  finished_at timestamptz,
  constraint backtest_ends_once check (num_nonnulls(cancelled_at, finished_at) <= 1),
  constraint backtest_ends_after_it_began check (begun_at <= cancelled_at and begun_at <= finished_at),
  constraint backtest_counts_not_negative check (least(revision, knowledge_revision) >= 0),
  constraint backtest_history_is_over check (history_from < as_of),
  constraint backtest_judges_days_that_are_over check (as_of > all (origins)),
  constraint backtest_within_limits check (fits(model_version, 1, 40))
);
create unique index backtest_one_open on backtest ((true)) where cancelled_at is null and finished_at is null;

create table backtest_origin (
  backtest_id int not null references backtest on delete cascade,
  origin date not null,
  judged jsonb not null,
  judged_at timestamptz not null,
  primary key (backtest_id, origin),
  constraint backtest_origin_judges_its_day check (judged ->> 'origin' = (origin - date '1970-01-01')::text)
);
