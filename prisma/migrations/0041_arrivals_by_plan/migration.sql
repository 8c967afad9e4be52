-- Which care plans a group's animals go by, as shares by season. In runs from before this all go the usual plan, which names none.
alter table learned_arrivals add column mix jsonb not null default 
  '{"winter":[{"planIds":[],"share":1}],"spring":[{"planIds":[],"share":1}],"summer":[{"planIds":[],"share":1}],"autumn":[{"planIds":[],"share":1}]}';
alter table learned_arrivals alter column mix drop default;
