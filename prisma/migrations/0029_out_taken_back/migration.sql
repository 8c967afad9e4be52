-- Locks what taking back an ending may touch, in the one order: the animal, its enclosures, those of the places it gave up.
create function lock_for_taking_back(p_casualty int, p_given_up_at timestamptz) returns void language sql as $$
  select lock_for_plans(array[p_casualty], array(
    select enclosure_id from claim
     where casualty_id = p_casualty and kind = 'hold' and state = 'given-up' and ended_at = p_given_up_at
    union select enclosure_id from whereabouts where casualty_id = p_casualty and enclosure_id is not null))
$$;

-- Keeps again the places that an animal gave up at an instant: the same place, else another of the enclosure. Says of
-- each whether it is kept; what the rules refuse by now is not.
create function keep_again(p_casualty int, p_given_up_at timestamptz, p_at timestamptz)
returns table (enclosure_id int, is_kept boolean) language plpgsql as $$
declare
  h claim;
  v_place int;
begin
  for h in
    select c.* from claim c
     where c.casualty_id = p_casualty and c.kind = 'hold' and c.state = 'given-up' and c.ended_at = p_given_up_at
     order by c.id
  loop
    enclosure_id := h.enclosure_id;
    is_kept := false;
    if h.expires_at > p_at and (h.ends_at is null or h.ends_at > p_at) then
      foreach v_place in array array[h.place_no, null] loop
        begin
          perform plan_hold(p_casualty, h.enclosure_id, v_place, greatest(h.starts_at, p_at), h.ends_at, h.expected_at,
                            h.expires_at, h.needs_isolation, h.override_reason, p_at);
          is_kept := true;
          exit;
        exception when check_violation or exclusion_violation or unique_violation then
          null;
        end;
      end loop;
    end if;
    return next;
  end loop;
end $$;
