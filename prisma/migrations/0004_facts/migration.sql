-- Facts: what has happened is recorded, always. Each function locks casualties by number, then enclosures by number,
-- and ends in settle; the entry is closed last of all, by whoever opened it. None of them refuses for a rule.

-- The place a fact names when nobody said which: the one that was promised to this animal, else one that is free
-- then, rather not one that is promised to another.
create function pick_place(p_casualty int, p_enclosure int, p_since timestamptz) returns int language sql stable as $$
  with animal as (
    select c.company_slug, company_key(c.id, e.housing_type) as company_key
      from casualty c, enclosure e where c.id = p_casualty and e.id = p_enclosure)
  select n
    from animal, generate_series(1, places_for(p_enclosure, company_slug, company_key)) n
   order by
     exists (
       select from claim c where c.enclosure_id = p_enclosure and c.state = 'live' and c.kind = 'hold'
          and c.casualty_id = p_casualty and c.place_no = n) desc,
     exists (
       select from claim c where c.enclosure_id = p_enclosure and c.state = 'live' and c.kind = 'stay'
          and c.casualty_id <> p_casualty
          and c.place_no = n and c.starts_at <= p_since and (c.ends_at is null or c.ends_at > p_since)),
     exists (
       select from claim c where c.enclosure_id = p_enclosure and c.state = 'live' and c.kind <> 'stay'
          and c.casualty_id is distinct from p_casualty
          and c.place_no = n and (c.ends_at is null or c.ends_at > p_since)),
     n
   limit 1
$$;

-- The version of a fact that nothing supersedes yet: that one is corrected, whichever version the writer saw.
create function newest_keeping(p_keeping int) returns keeping language sql stable as $$
  select k from keeping k
   where k.first_id = (select first_id from keeping where id = p_keeping)
     and not exists (select from keeping s where s.supersedes = k.id)
$$;

-- What follows from where the animals are now, whichever entry made it so: a hold that was reached is taken, a
-- departure that ended its stay is gone, and with nobody as keeper holds, checks, departures and asks end together.
create function follow_projection(p_casualties int[], p_stay_before jsonb, p_at timestamptz) returns void
language plpgsql as $$
declare
  v_closed int[];
begin
  update claim c set state = 'taken', ended_at = p_at
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null
     and c.casualty_id = w.casualty_id and c.enclosure_id = w.enclosure_id and c.kind = 'hold' and c.state = 'live';
  update departure d set state = 'gone'
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null and d.casualty_id = w.casualty_id
     and d.state = 'booked' and w.first_id::text is distinct from p_stay_before ->> w.casualty_id::text;
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

-- Locks the casualties, then every enclosure that facts from an instant on can touch; returns those enclosures.
create function lock_for_facts(p_casualties int[], p_enclosures int[], p_from timestamptz) returns int[]
language plpgsql as $$
declare
  v_enclosures int[];
begin
  perform 1 from casualty where id = any (p_casualties) order by id for no key update;
  select array_agg(distinct enclosure_id) into v_enclosures
    from (
      select enclosure_id from whereabouts
       where casualty_id = any (p_casualties) and (until is null or until >= p_from)
      union select unnest(p_enclosures)) touched
   where enclosure_id is not null;
  return lock_enclosures(v_enclosures);
end $$;

-- The stay each casualty is in now, by the first version of its fact.
create function open_stays(p_casualties int[]) returns jsonb language sql stable as $$
  select coalesce(jsonb_object_agg(casualty_id, first_id), '{}')
    from whereabouts where casualty_id = any (p_casualties) and until is null
$$;

-- Records facts of one transaction, in the order given. A fact is an object with the columns of keeping; one that
-- supersedes another corrects its newest version; void needs nothing else. Returns their numbers.
create function record_keepings(p_facts jsonb, p_at timestamptz) returns int[] language plpgsql as $$
declare
  f keeping;
  v_old keeping;
  v_casualties int[];
  v_enclosures int[];
  v_from timestamptz;
  v_before jsonb;
  v_ids int[] := '{}';
begin
  select array_agg(distinct x.casualty_id),
         least(p_at, min(x.since), min(k.since),
               (select min(d.at) from departure d
                 where d.state = 'booked' and d.casualty_id = any (array_agg(x.casualty_id)))),
         array_agg(distinct x.enclosure_id)
    into v_casualties, v_from, v_enclosures
    from jsonb_populate_recordset(null::keeping, p_facts) x
    left join keeping y on y.id = x.supersedes
    left join keeping k on k.first_id = y.first_id;
  v_enclosures := lock_for_facts(v_casualties, v_enclosures, v_from);
  v_before := open_stays(v_casualties);
  for f in select * from jsonb_populate_recordset(null::keeping, p_facts) loop
    f.is_void := coalesce(f.is_void, false);
    if f.supersedes is not null then
      v_old := newest_keeping(f.supersedes);
      if f.is_void then
        v_old.is_void := true;
        v_old.entry_id := f.entry_id;
        v_old.override_reason := null;
        v_old.erased_at := null;
        f.supersedes := v_old.id;
        v_old.supersedes := f.supersedes;
        f := v_old;
      end if;
      f.supersedes := v_old.id;
    end if;
    if f.keeper = 'centre' and f.enclosure_id is not null then
      f.centre_id := (select centre_id from enclosure where id = f.enclosure_id);
      f.place_no := coalesce(f.place_no, pick_place(f.casualty_id, f.enclosure_id, f.since));
    end if;
    insert into keeping (entry_id, casualty_id, since, since_earliest, since_latest, keeper, driver_id, practice_id,
                         centre_id, enclosure_id, place_no, outcome, override_reason, is_void, supersedes)
    values (f.entry_id, f.casualty_id, f.since, f.since_earliest, f.since_latest, f.keeper, f.driver_id, f.practice_id,
            f.centre_id, f.enclosure_id, f.place_no, f.outcome, f.override_reason, f.is_void, f.supersedes)
    returning id into f.id;
    v_ids := v_ids || f.id;
    perform trace(array[f.casualty_id]);
    -- The next fact of this transaction picks its place in sight of this one.
    if jsonb_array_length(p_facts) > 1 and f.enclosure_id is not null then
      perform follow_projection(array[f.casualty_id], v_before, p_at);
      perform settle(array[f.enclosure_id], v_from, p_at);
    end if;
  end loop;
  perform follow_projection(v_casualties, v_before, p_at);
  perform settle(v_enclosures, v_from, p_at);
  return v_ids;
end $$;

-- One fact.
create function record_keeping(p_fact jsonb, p_at timestamptz) returns int language sql as $$
  select (record_keepings(jsonb_build_array(p_fact), p_at))[1]
$$;

-- Entries of the past, with the times at which they were made; their revisions follow those times.
create function open_history(p_entered_at timestamptz[], p_entered_by int[], p_reason text) returns int[]
language plpgsql as $$
declare
  v_base int;
  v_ids int[];
begin
  update network set revision = revision + cardinality(p_entered_at) where id = 1
  returning revision - cardinality(p_entered_at) into v_base;
  with given as (
    select at, by_, no, row_number() over (order by at, no) as rank
      from unnest(p_entered_at, p_entered_by) with ordinality as g (at, by_, no)),
  made as (
    insert into entry (revision, entered_at, entered_by, reason)
    select v_base + rank, at, by_, p_reason from given order by rank
    returning id, revision)
  select array_agg(made.id order by given.no) into v_ids
    from given join made on made.revision = v_base + given.rank;
  return v_ids;
end $$;

-- Facts of the past in bulk, in the order of their entries: the same projection, settled once at the end, which the
-- law "a rebuild equals what was done step by step" makes equal to recording them one by one.
create function record_history(p_facts jsonb, p_at timestamptz) returns int language plpgsql as $$
declare
  v_casualties int[];
  v_enclosures int[];
  v_count int;
begin
  select array_agg(distinct casualty_id), array_agg(distinct enclosure_id)
    into v_casualties, v_enclosures
    from jsonb_populate_recordset(null::keeping, p_facts);
  v_enclosures := lock_for_facts(v_casualties, v_enclosures, '-infinity');
  insert into keeping (entry_id, casualty_id, since, since_earliest, since_latest, keeper, driver_id, practice_id,
                       centre_id, enclosure_id, place_no, outcome, override_reason, is_void, supersedes)
  select f.entry_id, f.casualty_id, f.since, f.since_earliest, f.since_latest, f.keeper, f.driver_id, f.practice_id,
         coalesce((select centre_id from enclosure where id = f.enclosure_id), f.centre_id),
         f.enclosure_id, f.place_no, f.outcome, f.override_reason, coalesce(f.is_void, false), f.supersedes
    from jsonb_populate_recordset(null::keeping, p_facts) f
   order by (select e.revision from entry e where e.id = f.entry_id), f.since;
  get diagnostics v_count = row_count;
  perform trace(v_casualties);
  perform follow_projection(v_casualties, '{}', p_at);
  perform settle(v_enclosures, '-infinity', p_at);
  return v_count;
end $$;

-- What the animal is, as it is known now; every stay is settled again, since its company may be another.
create function identify(
  p_entry int, p_casualty int, p_species text, p_age text, p_is_alone boolean, p_supersedes int, p_at timestamptz)
returns int language plpgsql as $$
declare
  v_id int;
  v_enclosures int[];
  v_old int;
begin
  v_enclosures := lock_for_facts(array[p_casualty], '{}', '-infinity');
  if p_supersedes is not null then
    with recursive version as (
      select id from identification where id = p_supersedes
      union all select i.id from identification i join version v on i.supersedes = v.id)
    select max(id) into v_old from version;
  end if;
  insert into identification (entry_id, casualty_id, species_slug, age, supersedes)
  values (p_entry, p_casualty, p_species, p_age, v_old) returning id into v_id;
  update casualty
     set species_slug = p_species, age = p_age, is_alone = p_is_alone,
         company_slug = (select company_slug from species where slug = p_species)
   where id = p_casualty;
  perform settle(v_enclosures, coalesce((select min(since) from whereabouts where casualty_id = p_casualty), p_at), p_at);
  return v_id;
end $$;

-- A closure is a fact too: it may come with occupants; their stays end in it, and that is the list of moves.
create function close_enclosure(
  p_entry int, p_enclosure int, p_starts timestamptz, p_ends timestamptz, p_reason text, p_at timestamptz)
returns int language plpgsql as $$
declare
  v_id int;
begin
  perform lock_enclosures(array[p_enclosure]);
  insert into closure (entry_id, enclosure_id, starts_at, ends_at, reason)
  values (p_entry, p_enclosure, p_starts, p_ends, p_reason) returning id into v_id;
  perform settle(array[p_enclosure], p_starts, p_at);
  return v_id;
end $$;

create function lift_closure(p_closure int, p_at timestamptz) returns void language plpgsql as $$
declare
  v_enclosure int := (select enclosure_id from closure where id = p_closure);
begin
  perform lock_enclosures(array[v_enclosure]);
  update closure set lifted_at = p_at where id = p_closure and lifted_at is null;
  perform settle(array[v_enclosure], p_at, p_at);
end $$;

create function cleaned_now(p_entry int, p_enclosure int, p_at timestamptz) returns void language plpgsql as $$
begin
  perform lock_enclosures(array[p_enclosure]);
  insert into cleaning (entry_id, enclosure_id, at) values (p_entry, p_enclosure, p_at);
  perform settle(array[p_enclosure], p_at, p_at);
end $$;

-- Derived, never stored ----------------------------------------------------------------------------------------------

-- In the building, no proper place: at a centre without a claim on a place, or in a quarantine stage outside
-- isolation. Not cut at any instant: the reader knows which time it is.
create view short as
with without_claim as (
  select w.keeping_id, w.casualty_id, w.centre_id, w.enclosure_id, range
    from whereabouts w,
    lateral unnest(tstzmultirange(tstzrange(w.since, w.until)) - coalesce(
      (select range_agg(tstzrange(c.starts_at, c.ends_at)) from claim c
        where c.keeping_id = w.keeping_id and c.kind = 'stay' and c.state = 'live'), '{}')) range
   where w.keeper = 'centre'),
stage_span as (
  select s.casualty_id, s.stage_no, s.at as starts_at, lead(s.at) over (partition by s.casualty_id order by s.at, s.id) as ends_at
    from stage_fact s
   where s.kind = 'began' and not s.is_void and not exists (select from stage_fact n where n.supersedes = s.id)),
quarantine as (
  select s.casualty_id, tstzrange(s.starts_at, s.ends_at) as range
    from stage_span s
    join casualty_plan p on p.casualty_id = s.casualty_id
     and p.version_no = (select max(version_no) from casualty_plan n where n.casualty_id = s.casualty_id)
    join casualty_stage t on t.casualty_plan_id = p.id and t.stage_no = s.stage_no and t.stage = 'quarantine')
select keeping_id, casualty_id, centre_id, enclosure_id, lower(range) as starts_at, upper(range) as ends_at,
       case
         when enclosure_id is null then 'no-enclosure'
         when exists (
           select from closure_effect x where x.enclosure_id = o.enclosure_id and x.starts_at <= lower(o.range)
              and (x.ends_at is null or x.ends_at > lower(o.range))) then 'closed'
         when not exists (
           select from stocking x join casualty c on c.company_slug = x.company_slug
            where c.id = o.casualty_id and x.enclosure_id = o.enclosure_id) then 'not-stocked'
         when exists (
           select from claim x where x.enclosure_id = o.enclosure_id and x.kind = 'stay' and x.state = 'live'
              and x.starts_at <= lower(o.range) and (x.ends_at is null or x.ends_at > lower(o.range))
              and x.company_key <> company_key(o.casualty_id, x.housing_type)) then 'company'
         when exists (
           select from claim x join enclosure e on e.room_id = x.room_apart_id
            join casualty c on c.id = o.casualty_id join company co on co.slug = c.company_slug
            where e.id = o.enclosure_id and x.preys <> co.preys and x.kind = 'stay' and x.state = 'live'
              and x.starts_at <= lower(o.range) and (x.ends_at is null or x.ends_at > lower(o.range))) then 'room'
         else 'full'
       end as because
  from without_claim o
union all
select w.keeping_id, w.casualty_id, w.centre_id, w.enclosure_id, lower(piece), upper(piece), 'quarantine'
  from quarantine q
  join whereabouts w on w.casualty_id = q.casualty_id and w.keeper = 'centre'
  join enclosure e on e.id = w.enclosure_id and e.housing_type <> 'isolation',
  lateral unnest(tstzmultirange(q.range * tstzrange(w.since, w.until)) * coalesce(
    (select range_agg(tstzrange(c.starts_at, c.ends_at)) from claim c
      where c.keeping_id = w.keeping_id and c.kind = 'stay' and c.state = 'live'), '{}')) piece;

-- Facts that a plan would not have been allowed, beside those that left an animal short.
create view against_the_rule as
select w.keeping_id, w.casualty_id, w.centre_id, w.enclosure_id, w.since as at, 'stop'::text as because
  from whereabouts w
  join casualty c on c.id = w.casualty_id
  join species s on s.slug = c.species_slug
  join species_group g on g.slug = s.group_slug
  join movement_stop m on m.centre_id = w.centre_id and m.starts_at <= w.since and (m.ends_at is null or m.ends_at > w.since)
   and (m.covers_class is null or m.covers_class = s.class)
   and (m.site_state = 'no-movement'
        or m.site_state = 'closed-to-high-risk'
           and (g.is_high_risk_influenza or 'hpai-outside-first' = any (s.handling_cautions)))
 where w.keeper = 'centre'
   and not exists (
     select from whereabouts b
      where b.casualty_id = w.casualty_id and b.until = w.since and b.centre_id = w.centre_id)
union all
select w.keeping_id, w.casualty_id, w.centre_id, w.enclosure_id, w.since, 'reopened'
  from whereabouts w
  join whereabouts b on b.casualty_id = w.casualty_id and b.until = w.since and b.keeper = 'nobody';

-- The facts as they were known when the network stood at a revision.
create function keeping_as_known_on(p_revision int) returns table (
  keeping_id int, casualty_id int, keeper text, centre_id int, enclosure_id int, outcome text,
  since timestamptz, until timestamptz) language sql stable as $$
  select k.id, k.casualty_id, k.keeper, k.centre_id, k.enclosure_id, k.outcome, k.since,
         lead(k.since) over (partition by k.casualty_id order by k.since, k.first_id)
    from keeping k join entry e on e.id = k.entry_id
   where e.revision <= p_revision and not k.is_void
     and not exists (
       select from keeping s join entry n on n.id = s.entry_id where s.supersedes = k.id and n.revision <= p_revision)
$$;
