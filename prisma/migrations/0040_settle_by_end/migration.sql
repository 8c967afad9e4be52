-- What an enclosure has had, it keeps for years: settling looks at what may still be there, by the index of ends.

create or replace function write_claims(p_unit int[], p_pieces claim_piece[], p_at timestamptz) returns void language sql as $$
  with there as materialized (
    select * from claim
     where enclosure_id = any (p_unit) and state = 'live' and kind <> 'hold'
       and (ends_at is null or ends_at >= (select min(ends_at) from unnest(p_pieces)))),
  free as (
    select p.*, range
      from unnest(p_pieces) p,
      lateral unnest(
        case when p.kind <> 'stay' or p.starts_at <= p_at then tstzmultirange(tstzrange(p.starts_at, p.ends_at))
        else tstzmultirange(tstzrange(p.starts_at, p.ends_at)) - coalesce(
          (select range_agg(tstzrange(h.starts_at, h.ends_at)) from claim h
            where h.enclosure_id = any (p_unit) and h.kind = 'hold' and h.state = 'live' and clash(p, piece_of(h, h.place_no))),
          '{}') end) range
     where not exists (
       select from there c
        where c.enclosure_id = p.enclosure_id and c.kind = p.kind
          and c.starts_at = p.starts_at and c.ends_at is not distinct from p.ends_at
          and c.keeping_id is not distinct from p.keeping_id and c.closure_id is not distinct from p.closure_id
          and c.place_no is not distinct from p.place_no and c.company_key = p.company_key))
  insert into claim (kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
                     housing_type, starts_at, ends_at)
  select kind, keeping_id, closure_id, casualty_id, enclosure_id, place_no, company_slug, company_key,
         '', lower(range), upper(range)
    from free
$$;

create or replace function settle_unit(p_unit int[], p_from timestamptz, p_at timestamptz) returns void language plpgsql as $$
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
     and (c.ends_at is null or c.ends_at >= v_since) and (c.kind <> 'drying' or c.starts_at >= v_since)
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
