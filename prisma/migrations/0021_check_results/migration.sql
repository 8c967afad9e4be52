-- What a check found, operations with what they left in the animal, and what a check that was not passed does to
-- promises: those of the animal move with its later stages, those that others hold on its place give way by name.

alter table check_due
  add column anchor text constraint check_due_anchor_known
    check (anchor in ('admission', 'surgery', 'stage start', 'stage end')),
  add column found text constraint check_due_found_known check (found in (
    'united', 'partly united', 'not united', 'as it should be', 'not as it should be', 'off', 'still on', 'out',
    'signed to stay', 'still in', 'none in place', 'not signed', 'changed', 'off for good', 'not changed',
    'holds or rises', 'falls', 'at the weight', 'below the weight', 'flies well', 'flies poorly', 'does not fly',
    'fit', 'not fit yet', 'good', 'not good yet', 'feeds itself', 'needs feeding', 'clear', 'not clear', 'may go',
    'not yet')),
  add column signed_by text,
  add column more_days int constraint check_due_more_days_positive check (more_days > 0),
  add constraint check_due_found_once_done check (done_at is not null or num_nonnulls(found, signed_by, more_days) = 0),
  add constraint check_due_signature_names_the_vet check (found is distinct from 'signed to stay' or signed_by is not null),
  add constraint check_due_within_limits check (fits(signed_by, 1, 80));

-- Checks copied before now: by the gate of the plan that they came from.
update check_due d set anchor = g.anchor
  from casualty_plan p
  join casualty_stage s on s.casualty_plan_id = p.id
  join care_plan_gate g on g.plan_id = any (p.plan_ids) and g.stage = s.stage
 where p.casualty_id = d.casualty_id and s.stage_no = d.stage_no and g.check_slug = d.check_slug and g.what = d.what;

create table surgery (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  at timestamptz not null,
  side text not null constraint surgery_side_known check (side in ('left', 'right', 'both', 'no side')),
  what text not null,
  is_void boolean not null default false,
  supersedes int references surgery,
  constraint surgery_superseded_once unique (supersedes),
  constraint surgery_within_limits check (fits(what, 1, 200))
);
create index surgery_by_casualty on surgery (casualty_id);

create table implant (
  id int primary key generated always as identity,
  surgery_id int not null references surgery,
  kind text not null constraint implant_kind_known
    check (kind in ('pin', 'external fixator', 'wire', 'plate', 'suture', 'other'))
);
create index implant_by_surgery on implant (surgery_id);

-- What became of an implant; the newest line holds.
create table implant_fact (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  implant_id int not null references implant,
  at timestamptz not null,
  how text not null constraint implant_fact_how_known check (how in ('out', 'signed to stay')),
  signed_by text,
  constraint implant_fact_signature_names_the_vet check (how <> 'signed to stay' or signed_by is not null),
  constraint implant_fact_within_limits check (fits(signed_by, 1, 80))
);
create unique index implant_fact_out_once on implant_fact (implant_id) where how = 'out';
create index implant_fact_by_implant on implant_fact (implant_id);

create trigger surgery_is_append_only before update or delete on surgery
  for each row execute function append_only();
create trigger implant_is_append_only before update or delete on implant
  for each row execute function append_only();
create trigger implant_fact_is_append_only before update or delete on implant_fact
  for each row execute function append_only();

create trigger surgery_is_never_emptied before truncate on surgery execute function append_only();
create trigger implant_is_never_emptied before truncate on implant execute function append_only();
create trigger implant_fact_is_never_emptied before truncate on implant_fact execute function append_only();

-- Implants of operations that stand, with the newest word about each.
create view implant_now as
select i.id, s.casualty_id, s.id as surgery_id, i.kind, s.at as put_in_at,
       coalesce(f.how, 'in place') as state, f.at as since, f.signed_by
  from implant i
  join surgery s on s.id = i.surgery_id
  left join lateral (select how, at, signed_by from implant_fact where implant_id = i.id order by id desc limit 1) f on true
 where not s.is_void and not exists (select from surgery z where z.supersedes = s.id);

-- Which promises a check that was not passed took away or moved, as they stood before and stand after it.
create table check_displaced (
  check_id int not null references check_due,
  claim_id int not null references claim,
  how text not null constraint check_displaced_how_known check (how in ('broken', 'moved')),
  was_at timestamptz not null,
  now_at timestamptz,
  primary key (check_id, claim_id),
  constraint check_displaced_moved_says_when check ((how = 'moved') = (now_at is not null))
);

-- The stage takes so many days longer: a booked departure and the places kept for later stages move by them. What
-- others were promised from the departure on gives way; a place that can't be kept later is broken, never refused.
create function delay_promises(p_entry int, p_check int, p_casualty int, p_stage_housing text[], p_days int, p_at timestamptz)
returns int language plpgsql as $$
declare
  v_zone text := (select time_zone from network limit 1);
  v_here int;
  v_keeping int;
  v_leaves timestamptz;
  v_enclosures int[];
  v_before jsonb;
  v_hold claim;
begin
  perform 1 from casualty where id = p_casualty for no key update;
  select w.enclosure_id, w.keeping_id, d.at into v_here, v_keeping, v_leaves
    from whereabouts w left join departure d on d.casualty_id = w.casualty_id and d.state = 'booked'
   where w.casualty_id = p_casualty and w.until is null;
  select coalesce(array_agg(distinct enclosure_id), '{}') into v_enclosures
    from claim where casualty_id = p_casualty and kind = 'hold' and state = 'live';
  if v_here is not null then v_enclosures := v_enclosures || v_here; end if;
  perform lock_for_plans(array[p_casualty], v_enclosures);
  perform settle(v_enclosures, p_at, p_at);

  select coalesce(jsonb_object_agg(c.id, c.starts_at), '{}') into v_before
    from claim c
   where c.kind = 'hold' and c.state = 'live' and c.casualty_id <> p_casualty
     and c.enclosure_id in (select u from unnest(v_enclosures) e, unnest(unit_of(e)) u);
  if v_leaves is not null then
    perform book_departure(p_entry, p_casualty, later_by(v_leaves, p_days, v_zone), p_at);
  end if;
  insert into check_displaced (check_id, claim_id, how, was_at, now_at)
  select p_check, c.id, case c.state when 'live' then 'moved' else 'broken' end, (b.value #>> '{}')::timestamptz,
         case c.state when 'live' then c.starts_at end
    from jsonb_each(v_before) b join claim c on c.id = b.key::int
   where c.state = 'broken' or c.state = 'live' and c.starts_at <> (b.value #>> '{}')::timestamptz;

  for v_hold in
    select c.* from claim c join enclosure e on e.id = c.enclosure_id
     where c.casualty_id = p_casualty and c.kind = 'hold' and c.state = 'live'
       and e.housing_type <> all (p_stage_housing)
     order by c.id
  loop
    begin
      update claim set starts_at = later_by(starts_at, p_days, v_zone), ends_at = later_by(ends_at, p_days, v_zone),
             expected_at = later_by(expected_at, p_days, v_zone), expires_at = later_by(expires_at, p_days, v_zone)
       where id = v_hold.id;
      insert into check_displaced values (p_check, v_hold.id, 'moved', v_hold.starts_at, later_by(v_hold.starts_at, p_days, v_zone));
    exception when exclusion_violation or check_violation then
      update claim set state = 'broken', ended_at = p_at, broken_by = v_keeping where id = v_hold.id;
      insert into check_displaced values (p_check, v_hold.id, 'broken', v_hold.starts_at, null);
    end;
  end loop;
  perform settle(v_enclosures, p_at, p_at);
  return (select count(*)::int from check_displaced where check_id = p_check);
end $$;

-- So many days later at the same hour of the network's clock.
create function later_by(p_at timestamptz, p_days int, p_zone text) returns timestamptz language sql immutable as $$
  select ((p_at at time zone p_zone) + make_interval(days => p_days)) at time zone p_zone
$$;
