-- The heart: facts (keeping) are projected on whereabouts, and whereabouts on claims.
-- Promise: claims are a function of the facts alone. At every instant the animals of an enclosure are granted their
-- places in the order in which their facts were first entered; whatever follows from it is written as a difference,
-- so a claim that stays the same is not touched. Nothing here raises for a fact; holds give way. No function reads
-- the clock: each receives the instant. The unit is one enclosure, or, in a room that keeps predator and prey apart,
-- all enclosures of that room, since there one animal can stand in the way of another in the next cage.

-- Keys and corrections ------------------------------------------------------------------------------------------

create function keeping_knows_its_first_version() returns trigger language plpgsql as $$
begin
  new.first_id := coalesce((select first_id from keeping where id = new.supersedes), new.id);
  return new;
end $$;
create trigger keeping_knows_its_first_version before insert on keeping
  for each row execute function keeping_knows_its_first_version();

-- Who may be in an enclosure at the same time: whoever has the same key.
-- In isolation an arrival is with itself only, and kinds that don't share elsewhere don't share there.
create function company_key_of(p_alone boolean, p_casualty int, p_arrival int, p_company text, p_housing text)
returns text language sql immutable as $$
  select case
    when p_alone then 'alone:' || p_casualty
    when p_housing = 'isolation' then 'arrival:' || p_arrival || ':' || p_company
    else p_company
  end
$$;

create function company_key(p_casualty int, p_housing text) returns text language sql stable as $$
  select company_key_of(is_alone, id, arrival_id, company_slug, p_housing) from casualty where id = p_casualty
$$;

-- How many of this animal's company the enclosure takes at once; null where it takes none of them.
create function places_for(p_enclosure int, p_company text, p_key text) returns int language sql stable as $$
  select case when p_key like 'alone:%' then 1 else places end
  from stocking where enclosure_id = p_enclosure and company_slug = p_company
$$;

-- What a claim copies from where it lies ------------------------------------------------------------------------

create function claim_copies_its_housing() returns trigger language plpgsql as $$
begin
  select e.housing_type, case when r.predators_apart then r.id end
    into new.housing_type, new.room_apart_id
    from enclosure e join room r on r.id = e.room_id
   where e.id = new.enclosure_id;
  new.preys := (select preys from company where slug = new.company_slug);
  return new;
end $$;
create trigger claim_copies_its_housing before insert or update of enclosure_id, company_slug on claim
  for each row execute function claim_copies_its_housing();

create function claim_fits_stocking() returns trigger language plpgsql as $$
declare
  v_places int;
begin
  if new.kind in ('closure', 'drying') or new.state <> 'live' then return new; end if;
  -- For share, so that the number can't be lowered between this look and our commit.
  select places into v_places from stocking
   where enclosure_id = new.enclosure_id and company_slug = new.company_slug for share;
  if new.company_key like 'alone:%' then v_places := least(v_places, 1); end if;
  if v_places is null or new.place_no not between 1 and v_places then
    raise exception 'the enclosure has no such place: constraint "claim_fits_stocking"' using errcode = '23514';
  end if;
  return new;
end $$;
create trigger claim_fits_stocking
  before insert or update of enclosure_id, place_no, company_slug, company_key, state on claim
  for each row execute function claim_fits_stocking();

-- A room that begins to keep predator and prey apart marks the claims that are in it; refused while both are in.
create function room_marks_its_claims() returns trigger language plpgsql as $$
begin
  update claim c set enclosure_id = c.enclosure_id
    from enclosure e where e.room_id = new.id and c.enclosure_id = e.id and c.state = 'live';
  return new;
end $$;
create trigger room_marks_its_claims after update of predators_apart on room
  for each row when (old.predators_apart <> new.predators_apart) execute function room_marks_its_claims();

create function enclosure_marks_its_claims() returns trigger language plpgsql as $$
begin
  update claim set enclosure_id = new.id where enclosure_id = new.id and state = 'live';
  return new;
end $$;
create trigger enclosure_marks_its_claims after update of housing_type, room_id on enclosure
  for each row when (old.housing_type <> new.housing_type or old.room_id <> new.room_id)
  execute function enclosure_marks_its_claims();

-- Facts as ranges ------------------------------------------------------------------------------------------------

-- The facts that hold now: neither void nor superseded; each ends where the next begins.
create view keeping_span as
select k.*, lead(k.since) over (partition by k.casualty_id order by k.since, k.first_id) as until
  from keeping k
 where not k.is_void and not exists (select from keeping s where s.supersedes = k.id);

-- Rewrites the whereabouts of these casualties, whose locks are held. The view is asked by number of casualty alone:
-- a join would work out the history of every animal.
create function trace(p_casualties int[]) returns void language plpgsql as $$
begin
  with span as materialized (select * from keeping_span where casualty_id = any (p_casualties))
  delete from whereabouts w
   where w.casualty_id = any (p_casualties)
     and not exists (select from span where span.id = w.keeping_id and span.until is not distinct from w.until);
  insert into whereabouts (keeping_id, first_id, casualty_id, keeper, centre_id, enclosure_id, since, until)
  select id, first_id, casualty_id, keeper, centre_id, enclosure_id, since, until
    from keeping_span
   where casualty_id = any (p_casualties) and (until is null or until > since)
  on conflict (keeping_id) do nothing;
end $$;

-- Locks -------------------------------------------------------------------------------------------------------------

-- The enclosures that must be settled together with one.
create function unit_of(p_enclosure int) returns int[] language sql stable as $$
  select case when r.predators_apart
      then (select array_agg(o.id order by o.id) from enclosure o where o.room_id = r.id)
      else array[e.id] end
    from enclosure e join room r on r.id = e.room_id
   where e.id = p_enclosure
$$;

-- Locks enclosures with their units, in the order of their numbers, and returns them. Read in the next statement only.
create function lock_enclosures(p_enclosures int[]) returns int[] language plpgsql as $$
declare
  v_all int[];
begin
  select array_agg(distinct u) into v_all
    from unnest(p_enclosures) e, unnest(unit_of(e)) u where e is not null;
  perform 1 from enclosure where id = any (v_all) order by id for no key update;
  return v_all;
end $$;

-- The counter; taken last in every transaction that changes what is known, so that it equals the order of commits.
create function bump() returns int language sql as $$
  update network set revision = revision + 1 where id = 1 returning revision
$$;

create function close_entry(p_entry int) returns int language sql as $$
  update entry set revision = bump() where id = p_entry returning revision
$$;

-- Settle --------------------------------------------------------------------------------------------------------------

-- A piece of a claim to be.
create type claim_piece as (
  kind text, keeping_id int, closure_id int, casualty_id int, enclosure_id int, place_no int,
  company_slug text, company_key text, room_apart_id int, preys text,
  starts_at timestamptz, ends_at timestamptz
);

-- Whether two pieces can't both be: the same place, a company that doesn't share, predator and prey in one room.
create function clash(a claim_piece, b claim_piece) returns boolean language sql immutable as $$
  select tstzrange(a.starts_at, a.ends_at) && tstzrange(b.starts_at, b.ends_at)
     and coalesce(a.enclosure_id = b.enclosure_id and (a.place_no = b.place_no or a.company_key <> b.company_key)
               or a.room_apart_id = b.room_apart_id and a.preys <> b.preys, false)
$$;

create function piece_of(c claim, p_place int) returns claim_piece language sql immutable as $$
  select row(c.kind, c.keeping_id, c.closure_id, c.casualty_id, c.enclosure_id, p_place,
             c.company_slug, c.company_key, c.room_apart_id, c.preys, c.starts_at, c.ends_at)::claim_piece
$$;

-- Closures as they took effect: until their end, or until they were lifted.
create view closure_effect as
select id, enclosure_id, starts_at, least(ends_at, lifted_at) as ends_at, reason
  from closure
 where lifted_at is null or lifted_at > starts_at;

-- Holds that are due expire and departures that are overdue slip. Returns the earliest instant that this changes.
create function expire_and_slip(p_unit int[], p_at timestamptz) returns timestamptz language plpgsql as $$
declare
  v_from timestamptz;
begin
  update claim set state = 'expired', ended_at = expires_at
   where enclosure_id = any (p_unit) and kind = 'hold' and state = 'live' and expires_at <= p_at;
  with slipped as (
    update departure d set state = 'slipped'
      from whereabouts w
     where w.enclosure_id = any (p_unit) and w.until is null and d.casualty_id = w.casualty_id
       and d.state = 'booked' and d.at <= p_at
    returning d.at)
  select min(at) into v_from from slipped;
  return v_from;
end $$;

-- The stays of a unit with all that decides about their places, from an instant on.
create function stays_in(p_unit int[], p_from timestamptz) returns table (
  keeping_id int, first_id int, casualty_id int, enclosure_id int, wished int, is_override boolean,
  company_slug text, company_key text, places int, room_apart_id int, preys text,
  starts_at timestamptz, ends_at timestamptz) language sql stable as $$
  select w.keeping_id, w.first_id, w.casualty_id, w.enclosure_id, k.place_no,
         k.override_reason is not null or k.erased_at is not null,
         c.company_slug, company_key_of(c.is_alone, c.id, c.arrival_id, c.company_slug, e.housing_type),
         case when c.is_alone then 1 else s.places end,
         case when r.predators_apart then r.id end, co.preys,
         w.since, least(w.until, d.at)
    from whereabouts w
    join keeping k on k.id = w.keeping_id
    join casualty c on c.id = w.casualty_id
    join company co on co.slug = c.company_slug
    join enclosure e on e.id = w.enclosure_id
    join room r on r.id = e.room_id
    join stocking s on s.enclosure_id = e.id and s.company_slug = c.company_slug
    left join departure d on d.casualty_id = c.id and d.state = 'booked' and w.until is null and d.at > w.since
   where w.enclosure_id = any (p_unit) and (w.until is null or w.until > p_from)
$$;

-- Grants places from an instant on: between two changes, whoever was entered first keeps it. An animal stays on
-- its number while it can, then takes the one its fact names, then the lowest. An override joins who is in.
create function grant_places(p_unit int[], p_from timestamptz) returns setof claim_piece language plpgsql as $$
declare
  r record;
  v_span timestamptz;
  v_granted claim_piece[] := '{}';
  v_seat jsonb;
  v_key text;
  v_place int;
begin
  select coalesce(jsonb_object_agg(keeping_id, place_no), '{}') into v_seat
    from (select distinct on (c.keeping_id) c.keeping_id, c.place_no
            from whereabouts w
            join claim c on c.keeping_id = w.keeping_id and c.kind = 'stay' and c.state = 'live'
           where w.enclosure_id = any (p_unit) and (w.until is null or w.until > p_from) and c.starts_at < p_from
           order by c.keeping_id, c.starts_at desc) last;
  for r in
    with stay as materialized (select * from stays_in(p_unit, p_from)),
    shut as materialized (
      select * from closure_effect where enclosure_id = any (p_unit) and (ends_at is null or ends_at > p_from)),
    change as (
      select p_from as at
      union select starts_at from stay union select ends_at from stay
      union select starts_at from shut union select ends_at from shut),
    span as (
      select at as span_starts, lead(at) over (order by at) as span_ends from change where at >= p_from)
    select span.*, stay.*
      from span join stay on stay.starts_at <= span_starts and (stay.ends_at is null or stay.ends_at > span_starts)
     where not exists (
       select from shut where shut.enclosure_id = stay.enclosure_id
          and shut.starts_at <= span_starts and (shut.ends_at is null or shut.ends_at > span_starts))
     order by span_starts, first_id
  loop
    if v_span is distinct from r.span_starts then
      v_span := r.span_starts;
      v_granted := '{}';
    end if;
    v_key := r.company_key;
    if r.is_override then
      v_key := coalesce((select g.company_key from unnest(v_granted) g where g.enclosure_id = r.enclosure_id limit 1), v_key);
    end if;
    continue when exists (
      select from unnest(v_granted) g
       where g.enclosure_id = r.enclosure_id and (g.company_key <> v_key or g.preys <> r.preys)
          or g.room_apart_id = r.room_apart_id and g.preys <> r.preys);
    select p into v_place
      from generate_series(1, case when v_key like 'alone:%' then 1 else r.places end) p
     where not exists (
       select from unnest(v_granted) g where g.enclosure_id = r.enclosure_id and g.place_no = p)
     order by p = (v_seat ->> r.keeping_id::text)::int desc nulls last, p = r.wished desc nulls last, p
     limit 1;
    continue when v_place is null;
    v_seat := v_seat || jsonb_build_object(r.keeping_id, v_place);
    v_granted := v_granted || row('stay', r.keeping_id, null, r.casualty_id, r.enclosure_id, v_place,
      r.company_slug, v_key, r.room_apart_id, r.preys, r.span_starts, r.span_ends)::claim_piece;
    return next v_granted[cardinality(v_granted)];
  end loop;
end $$;

-- Stays and closures as they should stand: what stood before the instant, joined to what follows from it.
create function desired_claims(p_unit int[], p_from timestamptz, p_since timestamptz) returns setof claim_piece
language sql stable as $$
  with piece as (
    select kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
           room_apart_id, preys, starts_at, least(ends_at, p_from) as ends_at
      from claim
     where enclosure_id = any (p_unit) and state = 'live' and kind = 'stay'
       and starts_at < p_from and (ends_at is null or ends_at >= p_since)
    union all
    select * from grant_places(p_unit, p_from)
    union all
    select 'closure', null, id, null, enclosure_id, null, null, 'closed', null, null, starts_at, ends_at
      from closure_effect
     where enclosure_id = any (p_unit) and (ends_at is null or ends_at >= p_since)),
  joined as (
    select kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
           room_apart_id, preys, range_agg(tstzrange(starts_at, ends_at)) as ranges
      from piece group by 1, 2, 3, 4, 5, 6, 7, 8, 9, 10)
  select kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
         room_apart_id, preys, lower(range), upper(range)
    from joined, unnest(ranges) range
$$;

-- Drying after each departure, until the next that it would stand in the way of begins, or somebody cleaned.
create function desired_drying(p_pieces claim_piece[], p_since timestamptz, p_at timestamptz) returns setof claim_piece
language sql stable as $$
  with window_ as (
    select p.enclosure_id, case when e.dries_after = 'each' then p.place_no end as place_no, p.company_key,
           p.ends_at as starts_at, p.ends_at + make_interval(mins => e.turnaround_min) as ends_at
      from unnest(p_pieces) p
      join enclosure e on e.id = p.enclosure_id and e.turnaround_min > 0
      join whereabouts w on w.keeping_id = p.keeping_id
     where p.kind = 'stay' and p.ends_at >= p_since and p.starts_at <= p_at
       and (p.ends_at = w.until
            or w.until is null and exists (
              select from departure d where d.casualty_id = p.casualty_id and d.state = 'booked' and d.at = p.ends_at))),
  cut as (
    select w.*,
           least(w.ends_at,
             (select min(greatest(o.starts_at, w.starts_at)) from unnest(p_pieces) o
               where o.enclosure_id = w.enclosure_id and (o.place_no = w.place_no or o.company_key <> w.company_key)
                 and (o.ends_at is null or o.ends_at > w.starts_at)),
             (select min(c.at) from cleaning c where c.enclosure_id = w.enclosure_id and c.at >= w.starts_at)) as until
      from window_ w)
  select distinct 'drying', null::int, null::int, null::int, enclosure_id, place_no, null, company_key,
         null::int, null, starts_at, max(until)
    from cut where until > starts_at
   group by enclosure_id, place_no, company_key, starts_at
$$;

-- Holds that stand in the way of what must be: moved to another place of the enclosure, or made to begin later while
-- the animal is not yet expected, or broken.
create function give_way(p_unit int[], p_must claim_piece[], p_all claim_piece[], p_at timestamptz) returns void
language plpgsql as $$
declare
  h claim;
  v_place int;
  v_free_from timestamptz;
begin
  for h in
    select c.* from claim c
     where c.enclosure_id = any (p_unit) and c.kind = 'hold' and c.state = 'live'
       and exists (select from unnest(p_must) m where clash(piece_of(c, c.place_no), m))
     order by c.id
  loop
    select p into v_place
      from generate_series(1, places_for(h.enclosure_id, h.company_slug, h.company_key)) p
     where p <> h.place_no
       and not exists (select from unnest(p_all) o where clash(piece_of(h, p), o))
       and not exists (
         select from claim o where o.enclosure_id = any (p_unit) and o.kind = 'hold' and o.state = 'live'
            and o.id <> h.id and clash(piece_of(h, p), piece_of(o, o.place_no)))
     order by p limit 1;
    if v_place is not null then
      update claim set place_no = v_place where id = h.id;
      continue;
    end if;
    select case when bool_and(m.ends_at is not null) then max(m.ends_at) end into v_free_from
      from unnest(p_must) m where clash(piece_of(h, h.place_no), m);
    if v_free_from <= h.expected_at and (h.ends_at is null or v_free_from < h.ends_at) then
      update claim set starts_at = v_free_from where id = h.id;
    else
      update claim set state = 'broken', ended_at = p_at,
             broken_by = (select m.keeping_id from unnest(p_must) m
                           where m.keeping_id is not null and clash(piece_of(h, h.place_no), m) order by m.keeping_id limit 1)
       where id = h.id;
    end if;
  end loop;
end $$;

-- Inserts what is missing. What has not begun yet takes only what no promise holds.
create function write_claims(p_unit int[], p_pieces claim_piece[], p_at timestamptz) returns void language sql as $$
  with free as (
    select p.*, range
      from unnest(p_pieces) p,
      lateral unnest(
        case when p.kind <> 'stay' or p.starts_at <= p_at then tstzmultirange(tstzrange(p.starts_at, p.ends_at))
        else tstzmultirange(tstzrange(p.starts_at, p.ends_at)) - coalesce(
          (select range_agg(tstzrange(h.starts_at, h.ends_at)) from claim h
            where h.enclosure_id = any (p_unit) and h.kind = 'hold' and h.state = 'live' and clash(p, piece_of(h, h.place_no))),
          '{}') end) range
     where not exists (
       select from claim c
        where c.enclosure_id = p.enclosure_id and c.state = 'live' and c.kind = p.kind
          and c.starts_at = p.starts_at and c.ends_at is not distinct from p.ends_at
          and c.keeping_id is not distinct from p.keeping_id and c.closure_id is not distinct from p.closure_id
          and c.place_no is not distinct from p.place_no and c.company_key = p.company_key))
  insert into claim (kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
                     housing_type, starts_at, ends_at)
  select kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
         '', lower(range), upper(range)
    from free
$$;

create function settle_unit(p_unit int[], p_from timestamptz, p_at timestamptz) returns void language plpgsql as $$
declare
  v_from timestamptz;
  v_since timestamptz; -- departures since then may still be drying at v_from
  v_pieces claim_piece[];
  v_all claim_piece[];
begin
  perform 1 from stocking where enclosure_id = any (p_unit) for share;
  v_from := least(p_from, p_at, expire_and_slip(p_unit, p_at));
  select least(v_from, min(coalesce(settled_at, '-infinity'))),
         least(v_from, min(coalesce(settled_at, '-infinity'))) - make_interval(mins => max(turnaround_min))
    into v_from, v_since
    from enclosure where id = any (p_unit);
  v_pieces := array(select d::claim_piece from desired_claims(p_unit, v_from, v_since) d);
  v_all := v_pieces || array(select d::claim_piece from desired_drying(v_pieces, v_since, p_at) d);
  delete from claim c
   where c.enclosure_id = any (p_unit) and c.state = 'live' and c.kind <> 'hold'
     and (c.kind = 'drying' and c.starts_at >= v_since
          or c.kind <> 'drying' and (c.ends_at is null or c.ends_at >= v_since))
     and not exists (
       select from unnest(v_all) p
        where c.enclosure_id = p.enclosure_id and c.kind = p.kind
          and c.starts_at = p.starts_at and c.ends_at is not distinct from p.ends_at
          and c.keeping_id is not distinct from p.keeping_id and c.closure_id is not distinct from p.closure_id
          and c.place_no is not distinct from p.place_no and c.company_key = p.company_key);
  perform give_way(p_unit, array(select p from unnest(v_all) p where p.kind <> 'stay' or p.starts_at <= p_at), v_all, p_at);
  perform write_claims(p_unit, v_all, p_at);
  update enclosure set settled_at = p_at where id = any (p_unit) and settled_at is distinct from p_at;
end $$;

-- Brings the claims of enclosures, whose locks are held, in line with the facts from an instant on.
create function settle(p_enclosures int[], p_from timestamptz, p_at timestamptz) returns void language plpgsql as $$
declare
  v_unit int[];
begin
  for v_unit in select distinct unit_of(e) from unnest(p_enclosures) e where e is not null loop
    perform settle_unit(v_unit, p_from, p_at);
  end loop;
end $$;
