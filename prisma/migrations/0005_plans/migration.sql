-- Plans: promises for what has not happened. They may be refused, by a constraint, under the lock of the enclosure.
-- Order of locks: casualty, centres, enclosures, claims; the network's counter last.

-- The movement stop that stands against bringing this animal into a centre, by the name of the rule; null if none.
-- An animal that is at the centre already is not moved in. The centres' locks are held.
create function stop_against(
  p_casualty int, p_centre int, p_starts timestamptz, p_ends timestamptz, p_needs_isolation boolean)
returns text language sql stable as $$
  with animal as (
    select s.class, g.is_high_risk_influenza or 'hpai-outside-first' = any (s.handling_cautions) as is_high_risk,
           (select w.centre_id from whereabouts w where w.casualty_id = c.id and w.until is null) as at_centre
      from casualty c join species s on s.slug = c.species_slug join species_group g on g.slug = s.group_slug
     where c.id = p_casualty)
  select case
      when m.centre_id <> p_centre then 'hold_not_from_a_stopped_site'
      when m.site_state = 'no-movement' then 'hold_not_at_a_stopped_site'
      when m.site_state = 'closed-to-high-risk' then 'hold_not_at_a_site_closed_to_high_risk'
      else 'hold_not_in_a_full_isolation' end
    from animal a
    join movement_stop m on m.centre_id in (p_centre, a.at_centre)
     and tstzrange(m.starts_at, m.ends_at) && tstzrange(p_starts, p_ends)
     and (m.covers_class is null or m.covers_class = a.class)
   where a.at_centre is distinct from p_centre
     and (m.site_state = 'no-movement'
          or m.centre_id = p_centre
             and (m.site_state = 'closed-to-high-risk' and a.is_high_risk
                  or m.site_state = 'isolation-full' and p_needs_isolation))
   order by m.site_state = 'no-movement' desc, m.centre_id = p_centre desc
   limit 1
$$;

create function refuse(p_rule text) returns void language plpgsql as $$
begin
  raise exception 'a rule stands against this: constraint "%"', p_rule using errcode = '23514';
end $$;

-- Keeps a named place for somebody expected. Without a number it takes the lowest that is free; where none is, the
-- constraint says why not. An override joins who is in.
create function plan_hold(
  p_casualty int, p_enclosure int, p_place int, p_starts timestamptz, p_ends timestamptz,
  p_expected timestamptz, p_expires timestamptz, p_needs_isolation boolean, p_override text, p_at timestamptz)
returns int language plpgsql as $$
declare
  v_centre int := (select centre_id from enclosure where id = p_enclosure);
  v_rule text;
  v_hold claim;
begin
  perform 1 from casualty where id = p_casualty for no key update;
  perform 1 from centre
   where id in (v_centre, (select centre_id from whereabouts where casualty_id = p_casualty and until is null))
   order by id for share;
  if exists (select from whereabouts where casualty_id = p_casualty and until is null and keeper = 'nobody') then
    perform refuse('hold_for_an_open_casualty');
  end if;
  v_rule := stop_against(p_casualty, v_centre, p_starts, p_ends, p_needs_isolation);
  if v_rule is not null then perform refuse(v_rule); end if;
  perform lock_enclosures(array[p_enclosure]);
  perform settle(array[p_enclosure], p_at, p_at);

  select 'hold', 'live', c.id, p_enclosure, c.company_slug, company_key(c.id, e.housing_type), p_needs_isolation,
         e.housing_type, p_starts, p_ends, p_expected, p_expires, p_override,
         case when r.predators_apart then r.id end, co.preys
    into v_hold.kind, v_hold.state, v_hold.casualty_id, v_hold.enclosure_id, v_hold.company_slug, v_hold.company_key,
         v_hold.needs_isolation, v_hold.housing_type, v_hold.starts_at, v_hold.ends_at, v_hold.expected_at,
         v_hold.expires_at, v_hold.override_reason, v_hold.room_apart_id, v_hold.preys
    from casualty c
    join company co on co.slug = c.company_slug
    join enclosure e on e.id = p_enclosure
    join room r on r.id = e.room_id
   where c.id = p_casualty;
  if p_override is not null then
    v_hold.company_key := coalesce(
      (select c.company_key from claim c
        where c.enclosure_id = p_enclosure and c.state = 'live' and c.kind in ('stay', 'hold')
          and tstzrange(c.starts_at, c.ends_at) && tstzrange(p_starts, p_ends)
        order by c.starts_at, c.id limit 1),
      v_hold.company_key);
  end if;
  v_hold.place_no := coalesce(p_place, (
    select n from generate_series(1, places_for(p_enclosure, v_hold.company_slug, v_hold.company_key)) n
     where not exists (
       select from claim c where c.enclosure_id = p_enclosure and c.state = 'live'
          and clash(piece_of(v_hold, n), piece_of(c, c.place_no)))
     order by n limit 1), 1);
  insert into claim (kind, state, casualty_id, enclosure_id, place_no, company_slug, company_key, needs_isolation,
                     housing_type, starts_at, ends_at, expected_at, expires_at, override_reason)
  values ('hold', 'live', p_casualty, p_enclosure, v_hold.place_no, v_hold.company_slug, v_hold.company_key,
          p_needs_isolation, '', p_starts, p_ends, p_expected, p_expires, p_override)
  returning id into v_hold.id;
  return v_hold.id;
end $$;

-- Locks everything that several plans of one transaction need, in the one order, so that two of them can't wait for
-- each other.
create function lock_for_plans(p_casualties int[], p_enclosures int[]) returns void language plpgsql as $$
begin
  perform 1 from casualty where id = any (p_casualties) order by id for no key update;
  perform 1 from centre
   where id in (
     select centre_id from enclosure where id = any (p_enclosures)
     union select centre_id from whereabouts where casualty_id = any (p_casualties) and until is null)
   order by id for share;
  perform lock_enclosures(p_enclosures);
end $$;

-- Every cause that stands against a hold, since the constraint that refuses it names one only. Read after a refusal.
create function causes_against(
  p_casualty int, p_enclosure int, p_place int, p_starts timestamptz, p_ends timestamptz,
  p_needs_isolation boolean)
returns table (rule text, claim_id int, casualty_id int, place_no int, company_slug text, starts_at timestamptz, ends_at timestamptz, places int)
language sql stable as $$
  with animal as (
    select c.company_slug, company_key(c.id, e.housing_type) as company_key, co.preys,
           case when r.predators_apart then r.id end as room_apart_id, e.housing_type, e.centre_id,
           places_for(e.id, c.company_slug, company_key(c.id, e.housing_type)) as places
      from casualty c join company co on co.slug = c.company_slug
      join enclosure e on e.id = p_enclosure join room r on r.id = e.room_id
     where c.id = p_casualty),
  other as (
    select c.* from claim c
     where c.state = 'live' and tstzrange(c.starts_at, c.ends_at) && tstzrange(p_starts, p_ends)
       and (c.casualty_id is distinct from p_casualty))
  select case
           when o.kind = 'closure' then 'closed'
           when o.company_key <> a.company_key then case o.kind when 'drying' then 'drying' else 'company' end
           when o.kind = 'drying' then 'drying' else 'taken' end,
         o.id, o.casualty_id, o.place_no, o.company_slug, o.starts_at, o.ends_at, a.places
    from animal a join other o on o.enclosure_id = p_enclosure
   where o.company_key <> a.company_key or p_place is null or o.place_no = p_place
  union all
  select 'room', o.id, o.casualty_id, o.place_no, o.company_slug, o.starts_at, o.ends_at, a.places
    from animal a join other o on o.room_apart_id = a.room_apart_id and o.preys <> a.preys
   where o.enclosure_id <> p_enclosure
  union all
  select 'stocking', null, null, p_place, a.company_slug, null, null, a.places
    from animal a where a.places is null or p_place not between 1 and a.places
  union all
  select 'isolation', null, null, null, null, null, null, null
    from animal a where p_needs_isolation and a.housing_type <> 'isolation'
  union all
  select stop_against(p_casualty, a.centre_id, p_starts, p_ends, p_needs_isolation), null, null, null, null, null, null, null
    from animal a where stop_against(p_casualty, a.centre_id, p_starts, p_ends, p_needs_isolation) is not null
  union all
  select 'hold_for_an_open_casualty', null, null, null, null, w.since, null, null
    from whereabouts w where w.casualty_id = p_casualty and w.until is null and w.keeper = 'nobody'
$$;

create function release_hold(p_claim int, p_at timestamptz) returns boolean language plpgsql as $$
declare
  v_casualty int;
  v_enclosure int;
  v_ended boolean;
begin
  select casualty_id, enclosure_id into v_casualty, v_enclosure from claim where id = p_claim and kind = 'hold';
  perform 1 from casualty where id = v_casualty for no key update;
  perform lock_enclosures(array[v_enclosure]);
  update claim set state = 'given-up', ended_at = p_at where id = p_claim and kind = 'hold' and state = 'live';
  v_ended := found;
  perform settle(array[v_enclosure], p_at, p_at);
  return v_ended;
end $$;

-- When an animal is expected to leave the enclosure it is in; from then on the place can be promised. Null takes it back.
create function book_departure(p_entry int, p_casualty int, p_leaves timestamptz, p_at timestamptz) returns int
language plpgsql as $$
declare
  v_enclosure int;
  v_from timestamptz;
  v_id int;
begin
  perform 1 from casualty where id = p_casualty for no key update;
  select enclosure_id into v_enclosure from whereabouts where casualty_id = p_casualty and until is null and keeper = 'centre';
  perform lock_enclosures(array[v_enclosure]);
  if p_leaves is not null then
    if not exists (select from whereabouts where casualty_id = p_casualty and until is null and keeper = 'centre') then
      perform refuse('departure_from_a_centre');
    end if;
  end if;
  select least(p_at, p_leaves, min(at)) into v_from from departure where casualty_id = p_casualty and state = 'booked';
  update departure set state = 'called-off' where casualty_id = p_casualty and state = 'booked';
  if p_leaves is not null then
    insert into departure (entry_id, casualty_id, at) values (p_entry, p_casualty, p_leaves) returning id into v_id;
  end if;
  if v_enclosure is not null then perform settle(array[v_enclosure], v_from, p_at); end if;
  return v_id;
end $$;

-- The state of a site. A stop breaks the holds that it covers, into the centre and out of it; returns how many.
create function set_site_state(
  p_centre int, p_state text, p_class text, p_ends timestamptz, p_reason text, p_at timestamptz)
returns int language plpgsql as $$
declare
  v_enclosures int[];
  v_broken int;
begin
  -- Excludes plans, which hold the centre for share, but no fact, which refers to it.
  perform 1 from centre where id = p_centre for no key update;
  delete from movement_stop where centre_id = p_centre and starts_at = p_at;
  update movement_stop set ends_at = p_at
   where centre_id = p_centre and starts_at < p_at and (ends_at is null or ends_at > p_at);
  if p_state = 'open' then return 0; end if;
  insert into movement_stop (centre_id, site_state, covers_class, starts_at, ends_at, reason)
  values (p_centre, p_state, p_class, p_at, p_ends, p_reason);
  select array_agg(distinct c.enclosure_id) into v_enclosures
    from claim c
    left join whereabouts w on w.casualty_id = c.casualty_id and w.until is null
   where c.kind = 'hold' and c.state = 'live'
     and (w.centre_id = p_centre or c.enclosure_id in (select id from enclosure where centre_id = p_centre));
  perform lock_enclosures(v_enclosures);
  update claim c set state = 'broken', ended_at = p_at
    from enclosure e
   where c.enclosure_id = any (v_enclosures) and e.id = c.enclosure_id and c.kind = 'hold' and c.state = 'live'
     and stop_against(c.casualty_id, e.centre_id, c.starts_at, c.ends_at, c.needs_isolation) is not null;
  get diagnostics v_broken = row_count;
  perform settle(v_enclosures, p_at, p_at);
  return v_broken;
end $$;

-- What time alone has changed: holds run out, departures slip. Claimed twenty enclosures at a time and without
-- waiting, so that several processes can ask at once; a unit that somebody writes to settles itself. Returns how many
-- enclosures were settled; each hold that ran out has its audit row.
create function expire_due_holds(p_at timestamptz) returns int language plpgsql as $$
declare
  v_due int[];
  v_units int[];
begin
  select array_agg(enclosure_id) into v_due
    from (
      select enclosure_id from claim where kind = 'hold' and state = 'live' and expires_at <= p_at
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
   where enclosure_id = any (v_due) and kind = 'hold' and state = 'live' and expires_at <= p_at;
  perform settle(v_due, p_at, p_at);
  perform bump();
  return cardinality(v_due);
end $$;
