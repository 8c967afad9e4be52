-- The road: a journey of one or several animals in legs, each driven by one driver or the finder. Who has the animals
-- is said by keeping alone; a journey follows it.

alter table policy add column late_minutes int not null default 30
  constraint policy_late_minutes_in_range check (late_minutes between 1 and 1440);

create table journey (
  id int primary key generated always as identity,
  from_centre_id int references centre, -- where it turns back to; null from a finder or a practice
  to_centre_id int references centre,
  to_practice_id int references practice,
  carry text not null default '',
  made_at timestamptz not null,
  made_by int references person,
  turned_at timestamptz,
  ended_at timestamptz,
  constraint journey_goes_to_one_place check (num_nonnulls(to_centre_id, to_practice_id) = 1),
  constraint journey_goes_elsewhere check (to_centre_id is null or from_centre_id is null or to_centre_id <> from_centre_id),
  constraint journey_turns_back_somewhere check (turned_at is null or from_centre_id is not null),
  constraint journey_ends_after_it_was_made check (ended_at >= made_at),
  constraint journey_within_limits check (fits(carry, 0, 400))
);

create table journey_animal (
  journey_id int not null references journey,
  casualty_id int not null references casualty,
  state text not null default 'open' constraint journey_animal_state_known check
    (state in ('open', 'arrived', 'turned-back', 'elsewhere', 'ended', 'called-off')),
  primary key (journey_id, casualty_id)
);
create unique index journey_animal_one_open on journey_animal (casualty_id) where state = 'open';

create table leg (
  id int primary key generated always as identity,
  journey_id int not null references journey,
  leg_no int not null constraint leg_no_in_range check (leg_no between 1 and 9),
  driver_id int references driver, -- null: the finder drives
  from_words text not null,
  to_words text not null,
  pick_up_at timestamptz not null,
  due_at timestamptz not null,
  state text not null default 'planned' constraint leg_state_known check
    (state in ('planned', 'on the road', 'delivered', 'cant', 'called-off')),
  has_it_at timestamptz,
  ended_at timestamptz,
  reason text,
  alarm_at timestamptz, -- when its lateness is told; null while an earlier leg runs, and when it ended
  late_at timestamptz,
  constraint leg_due_after_pick_up check (due_at > pick_up_at),
  constraint leg_ended_has_a_time check ((ended_at is null) = (state in ('planned', 'on the road'))),
  constraint leg_on_the_road_since check
    (case when state = 'planned' then has_it_at is null when state in ('on the road', 'delivered') then has_it_at is not null else true end),
  constraint leg_ended_has_no_alarm check (alarm_at is null or ended_at is null),
  constraint leg_within_limits check (fits(from_words, 1, 200) and fits(to_words, 1, 200) and fits(reason, 1, 300))
);
create index leg_of_journey on leg (journey_id);
create index leg_alarm on leg (alarm_at) where alarm_at is not null and late_at is null;
create unique index leg_one_of_a_number on leg (journey_id, leg_no) where state in ('planned', 'on the road', 'delivered');
create unique index leg_one_on_the_road on leg (journey_id) where state = 'on the road';

alter table one_time_link
  add column leg_id int references leg,
  drop constraint one_time_link_purpose_known,
  add constraint one_time_link_purpose_known check (purpose in ('ask', 'invitation', 'reset', 'leg')),
  drop constraint one_time_link_is_for_one_thing,
  add constraint one_time_link_is_for_one_thing check
    ((purpose = 'ask') = (ask_id is not null) and (purpose = 'leg') = (leg_id is not null)
      and (purpose in ('invitation', 'reset')) = (person_id is not null));
create index one_time_link_of_leg on one_time_link (leg_id) where used_at is null and revoked_at is null;

-- Locks the open animals of a leg's journey, then the journey; before anything is written about either.
create function lock_journey(p_journey int) returns void language plpgsql as $$
begin
  perform 1 from casualty
   where id in (select casualty_id from journey_animal where journey_id = p_journey and state = 'open')
   order by id for no key update;
  perform 1 from journey where id = p_journey for update;
end $$;

create function end_legs(p_legs int[], p_state text, p_at timestamptz) returns void language plpgsql as $$
begin
  update leg set state = p_state, ended_at = p_at, alarm_at = null where id = any (p_legs) and ended_at is null;
  update one_time_link set revoked_at = p_at
   where leg_id = any (p_legs) and used_at is null and revoked_at is null;
end $$;

-- A leg is on the road since an instant: the one before was delivered then, those that were skipped are called off.
create function take_up_leg(p_leg int, p_at timestamptz) returns void language plpgsql as $$
declare
  v_leg leg := (select l from leg l where id = p_leg);
begin
  perform end_legs((select array_agg(id) from leg
    where journey_id = v_leg.journey_id and id <> p_leg and state = 'on the road'), 'delivered', p_at);
  perform end_legs((select array_agg(id) from leg
    where journey_id = v_leg.journey_id and leg_no < v_leg.leg_no and state = 'planned'), 'called-off', p_at);
  update leg set state = 'on the road', has_it_at = p_at, late_at = null,
         alarm_at = due_at + make_interval(mins => coalesce((select late_minutes from policy limit 1), 30))
   where id = p_leg and state = 'planned';
end $$;

-- Whoever carried the last animal there, the journey ends with it: what was on the road is delivered, the rest called off.
create function end_journey(p_journey int, p_at timestamptz) returns void language plpgsql as $$
declare
  v_state text := case when exists (select from journey_animal
    where journey_id = p_journey and state in ('arrived', 'turned-back', 'elsewhere')) then 'delivered' else 'called-off' end;
begin
  if exists (select from journey_animal where journey_id = p_journey and state = 'open') then return; end if;
  perform end_legs((select array_agg(id) from leg where journey_id = p_journey and state = 'on the road'), v_state, p_at);
  perform end_legs((select array_agg(id) from leg where journey_id = p_journey and state = 'planned'), 'called-off', p_at);
  -- Answered once and for all: nobody has to be found for it any more.
  update journey set ended_at = p_at where id = p_journey and ended_at is null;
end $$;

-- What follows for its journey from where an animal is now, whichever entry made it so.
create function follow_road_of(p_casualty int) returns void language plpgsql as $$
declare
  j journey;
  v_keeper text;
  v_centre int;
  v_practice int;
  v_driver int;
  v_since timestamptz;
  v_at timestamptz;
  v_leg int;
  v_state text;
begin
  select y.* into j from journey_animal a join journey y on y.id = a.journey_id
   where a.casualty_id = p_casualty and a.state = 'open' for update of y;
  if not found then return; end if;
  select w.keeper, w.centre_id, k.practice_id, k.driver_id, w.since into v_keeper, v_centre, v_practice, v_driver, v_since
    from whereabouts w join keeping k on k.id = w.keeping_id where w.casualty_id = p_casualty and w.until is null;
  v_at := greatest(j.made_at, (select max(e.entered_at) from keeping k join entry e on e.id = k.entry_id
                                where k.casualty_id = p_casualty));
  if v_keeper = 'driver' then
    select id into v_leg from leg where journey_id = j.id and driver_id = v_driver and state = 'planned'
       and not exists (select from leg r where r.journey_id = j.id and r.state = 'on the road' and r.driver_id = v_driver)
     order by leg_no limit 1;
    if v_leg is not null then perform take_up_leg(v_leg, v_since); end if;
    return;
  end if;
  v_state := case
    when v_keeper = 'nobody' then 'ended'
    when v_keeper = 'centre' and v_centre = j.to_centre_id or v_keeper = 'practice' and v_practice = j.to_practice_id then 'arrived'
    when v_keeper not in ('centre', 'practice')
      or not exists (select from leg where journey_id = j.id and has_it_at is not null) then null
    when v_keeper = 'centre' and v_centre = j.from_centre_id then 'turned-back'
    else 'elsewhere' end;
  if v_state is null then return; end if;
  update journey_animal set state = v_state where journey_id = j.id and casualty_id = p_casualty;
  perform end_journey(j.id, v_at);
end $$;

create function follow_road() returns trigger language plpgsql as $$
begin
  perform follow_road_of(new.casualty_id);
  return null;
end $$;
-- At commit, when the whole history of the animal stands.
create constraint trigger whereabouts_leads_its_journey after insert or update on whereabouts
  deferrable initially deferred for each row when (new.until is null) execute function follow_road();

-- Legs whose lateness has to be told: claimed twenty at a time, each with its line in the audit, which tells open pages.
create function claim_late_legs(p_at timestamptz) returns int language plpgsql as $$
declare
  v_count int;
begin
  with due as (
    select id from leg where alarm_at <= p_at and late_at is null order by alarm_at, id limit 20 for update skip locked),
  late as (update leg l set late_at = p_at from due where l.id = due.id returning l.journey_id)
  insert into audit (at, actor_words, action, subject, subject_id, columns)
  select p_at, 'leg is late', 'leg.late', 'journey', journey_id::text, '{late_at}' from late;
  get diagnostics v_count = row_count;
  return v_count;
end $$;

-- A place kept for who is on a journey to it runs out with nobody's decision but a person's.
create function is_awaited(p_casualty int, p_enclosure int) returns boolean language sql stable as $$
  select exists (
    select from journey_animal a join journey j on j.id = a.journey_id join enclosure e on e.id = p_enclosure
     where a.casualty_id = p_casualty and a.state = 'open' and j.to_centre_id = e.centre_id and j.turned_at is null)
$$;

create or replace function expire_and_slip(p_unit int[], p_at timestamptz) returns timestamptz language plpgsql as $$
declare
  v_from timestamptz;
begin
  update claim set state = 'expired', ended_at = expires_at
   where enclosure_id = any (p_unit) and kind = 'hold' and state = 'live' and expires_at <= p_at
     and not is_awaited(casualty_id, enclosure_id);
  with slipped as (
    update departure d set state = 'slipped'
      from whereabouts w
     where w.enclosure_id = any (p_unit) and w.until is null and d.casualty_id = w.casualty_id
       and d.state = 'booked' and d.at <= p_at
    returning d.at)
  select min(at) into v_from from slipped;
  return v_from;
end $$;

create or replace function expire_due_holds(p_at timestamptz) returns int language plpgsql as $$
declare
  v_due int[];
  v_units int[];
begin
  select array_agg(enclosure_id) into v_due
    from (
      select enclosure_id from claim
       where kind = 'hold' and state = 'live' and expires_at <= p_at and not is_awaited(casualty_id, enclosure_id)
      union
      select w.enclosure_id from departure d join whereabouts w on w.casualty_id = d.casualty_id and w.until is null
       where d.state = 'booked' and d.at <= p_at and w.enclosure_id is not null
      order by 1 limit 20) due;
  select array_agg(distinct u) into v_units from unnest(v_due) e, unnest(unit_of(e)) u;
  select array_agg(id) into v_units
    from (select id from enclosure where id = any (v_units) order by id for no key update skip locked) l;
  select array_agg(e) into v_due from unnest(v_due) e where unit_of(e) <@ v_units;
  if v_due is null then return 0; end if;
  insert into audit (at, actor_words, action, subject, subject_id, columns)
  select p_at, 'hold ran out', 'hold.expire', 'claim', id::text, '{state,ended_at}'
    from claim
   where enclosure_id = any (v_due) and kind = 'hold' and state = 'live' and expires_at <= p_at
     and not is_awaited(casualty_id, enclosure_id);
  perform settle(v_due, p_at, p_at);
  perform bump();
  return cardinality(v_due);
end $$;
