-- Setup, the second half: what changes while animals are in leaves the past as it was and gives up only what no longer
-- fits; movement stops can be planned; what the trade knows is changed over the version that was read.

-- Changes under animals -----------------------------------------------------------------------------------------------

-- Switching an enclosure off closes it, so that whoever is in shows as without a proper place from that instant on.
alter table closure add column with_switch boolean not null default false;

-- Ends the stays of enclosures at an instant, to be granted anew under what setup writes next: what stood until then
-- keeps the place, company and housing that it had. The enclosures are locked and settled up to the instant.
create function close_off_stays(p_enclosures int[], p_at timestamptz) returns void language sql as $$
  delete from claim
   where enclosure_id = any (p_enclosures) and kind = 'stay' and state = 'live' and starts_at >= p_at;
  update claim set ends_at = p_at
   where enclosure_id = any (p_enclosures) and kind = 'stay' and state = 'live' and (ends_at is null or ends_at > p_at);
$$;

-- As before, but a stay whose enclosure was given other housing is two pieces: the nights before keep what they were in.
create or replace function desired_claims(p_unit int[], p_from timestamptz, p_since timestamptz) returns setof claim_piece
language sql stable as $$
  with piece as (
    select kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
           room_apart_id, preys, starts_at, least(ends_at, p_from) as ends_at, housing_type
      from claim
     where enclosure_id = any (p_unit) and state = 'live' and kind = 'stay'
       and starts_at < p_from and (ends_at is null or ends_at >= p_since)
    union all
    select g.*, e.housing_type from grant_places(p_unit, p_from) g join enclosure e on e.id = g.enclosure_id
    union all
    select 'closure', null, id, null, enclosure_id, null, null, 'closed', null, null, starts_at, ends_at, null
      from closure_effect
     where enclosure_id = any (p_unit) and (ends_at is null or ends_at >= p_since)),
  joined as (
    select kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
           room_apart_id, preys, range_agg(tstzrange(starts_at, ends_at)) as ranges
      from piece group by 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, housing_type)
  select kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
         room_apart_id, preys, lower(range), upper(range)
    from joined, unnest(ranges) range
$$;

create function give_up_holds(p_holds int[], p_at timestamptz) returns void language sql as $$
  update claim set state = 'broken', ended_at = p_at where id = any (p_holds) and kind = 'hold' and state = 'live'
$$;

-- Gives up the holds that would meet the other side, predator or prey, once these enclosures share a room that keeps
-- them apart: a stay is never in question, of two holds the later one is.
create function give_up_apart(p_enclosures int[], p_at timestamptz) returns void language sql as $$
  select give_up_holds(array(
    select h.id from claim h
     where h.enclosure_id = any (p_enclosures) and h.kind = 'hold' and h.state = 'live'
       and exists (
         select from claim o
          where o.enclosure_id = any (p_enclosures) and o.state = 'live' and o.preys <> h.preys
            and tstzrange(o.starts_at, o.ends_at) && tstzrange(h.starts_at, h.ends_at)
            and (o.kind = 'stay' or o.kind = 'hold' and o.id < h.id))), p_at)
$$;

-- Holds that the stocking has no place for any more move to another place of the enclosure, or are given up.
create function fit_holds(p_enclosures int[], p_at timestamptz) returns void language plpgsql as $$
declare
  h claim;
  v_place int;
begin
  for h in
    select c.* from claim c
     where c.enclosure_id = any (p_enclosures) and c.kind = 'hold' and c.state = 'live'
       and coalesce(c.place_no > places_for(c.enclosure_id, c.company_slug, c.company_key), true)
     order by c.id
  loop
    select p into v_place
      from generate_series(1, places_for(h.enclosure_id, h.company_slug, h.company_key)) p
     where not exists (
       select from claim o where o.enclosure_id = h.enclosure_id and o.state = 'live' and o.id <> h.id
          and clash(piece_of(h, p), piece_of(o, o.place_no)))
     order by p limit 1;
    if v_place is null then
      perform give_up_holds(array[h.id], p_at);
    else
      update claim set place_no = v_place where id = h.id;
    end if;
  end loop;
end $$;

-- Movement stops ---------------------------------------------------------------------------------------------------------

-- Breaks the holds that the stops of a centre cover, into it and out of it; returns how many.
create function break_stopped_holds(p_centre int, p_at timestamptz) returns int language plpgsql as $$
declare
  v_enclosures int[];
  v_broken int;
begin
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

-- A stop from an instant on, now or later; returns its number.
create function plan_stop(
  p_centre int, p_state text, p_class text, p_starts timestamptz, p_ends timestamptz, p_reason text, p_at timestamptz)
returns int language plpgsql as $$
declare
  v_id int;
begin
  -- Excludes plans, which hold the centre for share, but no fact, which refers to it.
  perform 1 from centre where id = p_centre for no key update;
  insert into movement_stop (centre_id, site_state, covers_class, starts_at, ends_at, reason)
  values (p_centre, p_state, p_class, p_starts, p_ends, p_reason) returning id into v_id;
  perform break_stopped_holds(p_centre, p_at);
  return v_id;
end $$;

-- Ends a stop now; one that has not begun is taken back, since it never held. False when it was over already.
create function end_stop(p_stop int, p_at timestamptz) returns boolean language plpgsql as $$
declare
  v_done int;
begin
  perform 1 from centre where id = (select centre_id from movement_stop where id = p_stop) for no key update;
  delete from movement_stop where id = p_stop and starts_at >= p_at;
  get diagnostics v_done = row_count;
  if v_done > 0 then return true; end if;
  update movement_stop set ends_at = p_at where id = p_stop and (ends_at is null or ends_at > p_at);
  get diagnostics v_done = row_count;
  return v_done > 0;
end $$;

create or replace function set_site_state(
  p_centre int, p_state text, p_class text, p_ends timestamptz, p_reason text, p_at timestamptz)
returns int language plpgsql as $$
begin
  perform 1 from centre where id = p_centre for no key update;
  delete from movement_stop where centre_id = p_centre and starts_at = p_at;
  update movement_stop set ends_at = p_at
   where centre_id = p_centre and starts_at < p_at and (ends_at is null or ends_at > p_at);
  if p_state = 'open' then return 0; end if;
  insert into movement_stop (centre_id, site_state, covers_class, starts_at, ends_at, reason)
  values (p_centre, p_state, p_class, p_at, p_ends, p_reason);
  return break_stopped_holds(p_centre, p_at);
end $$;

-- What the trade knows ----------------------------------------------------------------------------------------------------

alter table gazetteer_place
  add column is_active boolean not null default true,
  add column version int not null default 1,
  add constraint gazetteer_place_within_limits check (
    fits(name, 1, 80) and all_fit(also_called, 20, 80) and array_to_string(also_called, '') !~ ';');

alter table company
  add column version int not null default 1,
  add constraint company_within_limits check (fits(slug, 1, 80) and fits(members, 1, 300) and fits(mark, 1, 80));

alter table species_group
  add column temperament_mark text not null default 'CP',
  add column reviewed_on date,
  add column version int not null default 1,
  add constraint species_group_within_limits check (
    fits(name, 1, 80) and fits(temperament, 0, 400) and fits(temperament_mark, 1, 80) and fits(stock_mark, 1, 200));

alter table species
  add column reviewed_on date,
  add constraint species_within_limits check (
    fits(common_name, 1, 80) and all_fit(also_called, 20, 80) and fits(scientific_name, 1, 80)
    and mass_g_low > 0 and mass_g_high <= 1000000 and fits(mass_mark, 1, 80) and flight_length_min_m <= 200
    and fits(flight_mark, 1, 80) and fits(young_mark, 1, 80) and fits(licence_mark, 1, 80)
    and fits(release_season_note, 1, 400) and fits(note, 1, 400));

alter table condition
  add constraint condition_within_limits check (
    fits(name, 1, 80) and all_fit(words, 40, 80) and fits(mark_urgency, 1, 80) and fits(may_need_surgeon, 1, 60)
    and fits(mark_surgeon, 1, 80) and fits(deadline_note, 1, 400) and fits(mark_deadline, 1, 80)
    and fits(mark_quarantine, 1, 80) and all_fit(asks_first, 40, 60) and all_fit(cautions, 40, 60));

alter table reference_key
  add column version int not null default 1,
  add constraint reference_key_within_limits check (
    fits(meaning, 1, 300) and fits(jurisdiction, 1, 60) and fits(mark, 1, 80) and cardinality(clock_days) <= 10
    and 0 < all (clock_days) and 1500 >= all (clock_days));

create or replace function knowledge_snapshot() returns jsonb language sql stable as $$
select jsonb_build_object(
  'revision', n.knowledge_revision,
  'groups', coalesce((select jsonb_agg(to_jsonb(g) order by g.slug) from species_group g), '[]'),
  'species', coalesce((select jsonb_agg(to_jsonb(s) order by s.common_name) from species s where s.is_active), '[]'),
  'conditions', coalesce((select jsonb_agg(to_jsonb(c) order by c.slug) from condition c where c.is_active), '[]'),
  'planGroups', coalesce((select jsonb_agg(to_jsonb(g) order by g.slug) from plan_group g), '[]'),
  'plans', coalesce((select jsonb_agg(to_jsonb(p) || jsonb_build_object(
      'stages', (select jsonb_agg(to_jsonb(s) order by s.stage_no) from care_plan_stage s where s.plan_id = p.id),
      'gates', coalesce((select jsonb_agg(to_jsonb(g) order by g.id) from care_plan_gate g where g.plan_id = p.id), '[]')) order by p.id)
      from care_plan p where p.is_active and exists (select from care_plan_stage s where s.plan_id = p.id)), '[]'),
  'keys', coalesce((select jsonb_agg(to_jsonb(k) order by k.kind, k.key) from reference_key k), '[]'),
  'places', coalesce((select jsonb_agg(to_jsonb(z) order by z.name) from gazetteer_place z where z.is_active), '[]')
) from network n $$;
