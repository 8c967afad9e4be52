-- A call among others: put aside by somebody at some time, rung back with what was said, the same animal as another
-- call; and what changed is told to every process at once.

alter table call
  add parked_at timestamptz, -- null while it is not put aside
  add parked_by int references person,
  add changed_by jsonb not null default '{}'; -- field of the sheet -> number of the person who wrote it last
update call set parked_at = opened_at, parked_by = opened_by where state = 'parked';
alter table call add constraint call_parked_has_a_time check ((state = 'parked') = (parked_at is not null));

alter table call_back
  add done_by int references person,
  add said text; -- what was said when somebody rang
alter table call_back add constraint call_back_said_when_done check (done_at is not null or (said is null and done_by is null));

-- What somebody decided about two calls; the newest decision of a pair stands, so a later one takes it back.
create table call_pair (
  id int primary key generated always as identity,
  at timestamptz not null,
  decided_by int references person,
  first_id int not null references call,
  second_id int not null references call,
  is_same boolean not null,
  constraint call_pair_in_order check (first_id < second_id)
);
create index call_pair_by_calls on call_pair (first_id, second_id, id);
create index call_pair_by_second on call_pair (second_id);
create trigger call_pair_is_append_only before update or delete on call_pair
  for each row execute function append_only();
create trigger call_pair_is_never_emptied before truncate on call_pair execute function append_only();

-- Tells every listening process, when the transaction commits, which row changed: a noun and a number, never a word.
-- Arguments: the noun, the column that numbers it.
create function tell() returns trigger language plpgsql as $$
begin
  perform pg_notify('roostwright', tg_argv[0] || ':' || (to_jsonb(new) ->> tg_argv[1]));
  return null;
end $$;

-- What is no entry is told by its own table, everything else by the line that it leaves in the audit.
create trigger call_is_told after insert or update on call for each row execute function tell('call', 'id');
create trigger call_back_is_told after insert or update on call_back for each row execute function tell('call', 'call_id');
create trigger call_pair_is_told after insert on call_pair for each row execute function tell('call', 'second_id');
create trigger person_is_told after update of is_active, session_epoch on person
  for each row execute function tell('session', 'id');

create function tell_audit() returns trigger language plpgsql as $$
begin
  perform pg_notify('roostwright', new.subject || ':' || new.subject_id);
  return null;
end $$;
create trigger audit_is_told after insert on audit for each row execute function tell_audit();

-- A call and those that were decided to be about the same animal, near and far.
create function same_calls(p_call int) returns setof int language sql stable as $$
  with recursive newest as (
    select distinct on (first_id, second_id) first_id, second_id, is_same
      from call_pair order by first_id, second_id, id desc),
  same as (
    select p_call as id
    union
    select case n.first_id when s.id then n.second_id else n.first_id end
      from same s join newest n on n.is_same and s.id in (n.first_id, n.second_id))
  select id from same
$$;
