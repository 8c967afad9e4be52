-- A proposed move that is not taken: who set it aside, when, why, and until when. It is over when somebody takes the move up
-- again, on its day, or once the animal is in another place, stage or plan than it was then.
create table move_aside (
  id int primary key generated always as identity,
  casualty_id int not null references casualty,
  to_centre_id int not null references centre,
  at timestamptz not null,
  set_by int references person,
  reason text not null constraint move_aside_reason_known check
    (reason in ('unfit to travel', 'settled here', 'with its company', 'nobody drives', 'not now there', 'other')),
  words text,
  until_on date, -- null: until something changes
  keeping_id int not null references keeping,
  plan_version int,
  stage_fact_id int references stage_fact,
  taken_up_at timestamptz,
  taken_up_by int references person,
  constraint move_aside_within_limits check (fits(words, 1, 200)),
  constraint move_aside_other_says_why check (reason <> 'other' or words is not null),
  constraint move_aside_taken_up_after_it_was_set check (taken_up_at >= at)
);
create index move_aside_by_casualty on move_aside (casualty_id) where taken_up_at is null;

-- Those that stand on a day of the network: neither taken up, nor over.
create function moves_aside(p_today date) returns setof move_aside language sql stable as $$
  select a.* from move_aside a
    join whereabouts w on w.casualty_id = a.casualty_id and w.until is null and w.keeping_id = a.keeping_id
   where a.taken_up_at is null and (a.until_on is null or a.until_on > p_today)
     and a.plan_version is not distinct from (select max(version_no) from casualty_plan where casualty_id = a.casualty_id)
     and a.stage_fact_id is not distinct from (select max(id) from stage_fact where casualty_id = a.casualty_id)
$$;
