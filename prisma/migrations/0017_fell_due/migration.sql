-- What falls due is told as what changes is: by a noun and a number, when its hour has come. One row says until when
-- that was done; whichever process holds it tells, the others pass by.

create table due_told (
  id int primary key default 1 constraint due_told_is_one check (id = 1),
  told_until timestamptz not null
);
insert into due_told (told_until) values (now());

-- Tells what fell due since the last time, once, and returns how much it was. A clock that was set back begins again.
create function tell_what_fell_due(p_at timestamptz, p_count_hours int) returns int language plpgsql as $$
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
            select 'centre', centre_id, until from centre_word where lifted_at is null) d
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
