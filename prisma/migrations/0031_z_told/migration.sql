-- A planned release whose hour or day has come, and a movement stop that begins or ends, fall due as other things do.
create or replace function tell_what_fell_due(p_at timestamptz, p_count_hours int) returns int language plpgsql as $$
declare
  v_since timestamptz;
  v_line text;
  v_told int := 0;
begin
  select told_until into v_since from due_told for update skip locked;
  if v_since is null then return 0; end if;
  for v_line in
    select distinct d.noun || ':' || d.id
      from (select 'call' as noun, call_id as id, due_at as at from call_back where done_at is null
            union all
            select 'claim', id, expected_at from claim where kind = 'hold' and state = 'live'
            union all
            select 'casualty', casualty_id, at from departure where state in ('booked', 'slipped')
            union all
            select 'casualty', c.casualty_id, c.due_on::timestamp at time zone n.time_zone from check_due c, network n
             where c.done_at is null and c.called_off_at is null
            union all
            select 'line', id, until_at from line_turn where ended_at is null
            union all
            select 'enclosure', c.enclosure_id, b from closure c, unnest(array[c.starts_at, c.ends_at]) b where c.lifted_at is null
            union all
            select 'centre', id, counted_at + make_interval(hours => p_count_hours) from centre where is_active
            union all
            select 'centre', centre_id, until from centre_word where lifted_at is null
            union all
            select 'release', id, at from release where state = 'planned'
            union all
            -- A season opens or closes with the day: what stands against a release is another one then.
            select 'release', min(r.id), (p_at at time zone n.time_zone)::date::timestamp at time zone n.time_zone
              from release r, network n where r.state = 'planned' group by n.time_zone
            union all
            select 'centre', m.centre_id, b from movement_stop m, unnest(array[m.starts_at, m.ends_at]) b) d
     where d.at > v_since and d.at <= p_at
  loop
    perform pg_notify('roostwright', v_line);
    v_told := v_told + 1;
  end loop;
  -- A row written every few seconds for nothing would be swept up for ever.
  if v_told > 0 or p_at < v_since or p_at > v_since + interval '1 hour' then
    update due_told set told_until = p_at;
  end if;
  return v_told;
end $$;
