-- What every fact recorded looks for, found without reading whole tables: the promises it broke, and the versions of
-- what it corrects.

create index claim_broken on claim (ended_at) where state = 'broken';
create index keeping_by_first on keeping (first_id);

-- As before, but a fact that corrects nothing looks for no versions.
create or replace function record_keepings(p_facts jsonb, p_at timestamptz) returns int[] language plpgsql as $$
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
         least(p_at, min(x.since), min((select min(k.since) from keeping k where k.first_id = y.first_id)),
               (select min(d.at) from departure d
                 where d.state = 'booked' and d.casualty_id = any (array_agg(x.casualty_id)))),
         array_agg(distinct x.enclosure_id)
    into v_casualties, v_from, v_enclosures
    from jsonb_populate_recordset(null::keeping, p_facts) x
    left join keeping y on y.id = x.supersedes;
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
create or replace function record_keeping(p_fact jsonb, p_at timestamptz) returns int language sql as $$
  select (record_keepings(jsonb_build_array(p_fact), p_at))[1]
$$;
