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

create or replace function follow_projection(p_casualties int[], p_stay_before jsonb, p_at timestamptz) returns void
language plpgsql as $$
declare
  v_closed int[];
begin
  update claim c set state = 'taken', ended_at = p_at
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null
     and c.casualty_id = w.casualty_id and c.enclosure_id = w.enclosure_id and c.kind = 'hold' and c.state = 'live';
  -- Arrived by a move, but in another enclosure than the one that was kept: that one is free for others at once.
  update claim c set state = 'given-up', ended_at = p_at
    from whereabouts w
    join transfer t on t.casualty_id = w.casualty_id and t.to_centre_id = w.centre_id
     and t.state in ('agreed', 'on-the-road', 'arrived')
    join enclosure e on e.centre_id = w.centre_id
   where w.casualty_id = any (p_casualties) and w.until is null and w.enclosure_id is not null
     and c.casualty_id = w.casualty_id and c.enclosure_id = e.id and c.kind = 'hold' and c.state = 'live'
     and c.expires_at >= t.lapses_at and c.expected_at <= t.lapses_at;
  update departure d set state = 'gone'
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null and d.casualty_id = w.casualty_id
     and d.state = 'booked' and w.first_id::text is distinct from p_stay_before ->> w.casualty_id::text;
  -- Only an end calls checks off, so an open case has none that are.
  update check_due c set called_off_at = null
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null and w.keeper <> 'nobody'
     and c.casualty_id = w.casualty_id and c.done_at is null and c.called_off_at is not null;
  select array_agg(casualty_id) into v_closed
    from whereabouts where casualty_id = any (p_casualties) and until is null and keeper = 'nobody';
  if v_closed is null then return; end if;
  update claim set state = 'given-up', ended_at = p_at
   where casualty_id = any (v_closed) and kind = 'hold' and state = 'live';
  update departure set state = 'gone' where casualty_id = any (v_closed) and state = 'booked';
  update check_due set called_off_at = p_at
   where casualty_id = any (v_closed) and done_at is null and called_off_at is null;
  update ask set state = 'taken-back' where casualty_id = any (v_closed) and state in ('written', 'put');
  update referral set closed_at = p_at where casualty_id = any (v_closed) and closed_at is null;
end $$;
