-- Moves between centres: proposed, agreed by the receiving centre's answer, on the road by a journey, arrived or
-- turned back. Where the animal is decides what becomes of it, and so does the answer, whoever wrote them.

create table transfer (
  id int primary key generated always as identity,
  casualty_id int not null references casualty,
  from_centre_id int not null references centre,
  to_centre_id int not null references centre,
  state text not null default 'proposed' constraint transfer_state_known check
    (state in ('proposed', 'agreed', 'on-the-road', 'arrived', 'turned-back', 'refused', 'cancelled', 'expired')),
  reason text not null constraint transfer_reason_known check (reason in ('ready', 'short', 'by-hand')),
  bills jsonb, -- what staying and moving cost when it was proposed
  proposed_at timestamptz not null,
  proposed_by int references person,
  expected_at timestamptz not null,
  lapses_at timestamptz not null, -- an agreed one that nobody drives expires then
  ask_id int constraint transfer_of_one_ask unique references ask,
  journey_id int references journey,
  ended_at timestamptz,
  constraint transfer_goes_elsewhere check (from_centre_id <> to_centre_id),
  constraint transfer_lapses_after_it_is_expected check (lapses_at > expected_at),
  constraint transfer_ended_has_a_time check ((ended_at is null) = (state in ('proposed', 'agreed', 'on-the-road')))
);
create unique index transfer_one_open on transfer (casualty_id) where state in ('proposed', 'agreed', 'on-the-road');
create index transfer_lapses on transfer (lapses_at) where state = 'agreed';

create function end_transfer(p_transfer int, p_state text, p_at timestamptz) returns void language sql as $$
  update transfer set state = p_state, ended_at = greatest(p_at, proposed_at)
   where id = p_transfer and state in ('proposed', 'agreed', 'on-the-road')
$$;

-- The answer to its ask, whoever wrote it, is the answer to the transfer.
create function ask_leads_its_transfer() returns trigger language plpgsql as $$
declare
  v_transfer int := (select id from transfer where ask_id = new.id and state = 'proposed');
begin
  if v_transfer is null then return null; end if;
  if new.state = 'yes' then
    update transfer set state = 'agreed' where id = v_transfer;
  else
    perform end_transfer(v_transfer,
      case new.state when 'no' then 'refused' when 'unanswered' then 'expired' else 'cancelled' end,
      coalesce(new.answered_at, new.lapses_at, new.put_at));
  end if;
  return null;
end $$;
create trigger ask_leads_its_transfer after update of state on ask
  for each row when (old.state = 'put' and new.state <> 'put') execute function ask_leads_its_transfer();

-- What follows for its transfer from where an animal is now.
create function follow_transfer_of(p_casualty int) returns void language plpgsql as $$
declare
  t transfer;
  w whereabouts;
  v_at timestamptz;
  v_journey int;
begin
  select * into t from transfer where casualty_id = p_casualty and state in ('proposed', 'agreed', 'on-the-road') for update;
  if not found then return; end if;
  select * into w from whereabouts where casualty_id = p_casualty and until is null;
  v_at := (select max(e.entered_at) from keeping k join entry e on e.id = k.entry_id where k.casualty_id = p_casualty);
  if w.keeper = 'nobody' then
    perform end_transfer(t.id, 'cancelled', v_at);
  elsif w.keeper = 'centre' and w.centre_id = t.to_centre_id then
    perform end_transfer(t.id, 'arrived', v_at);
  elsif w.keeper = 'centre' and w.centre_id = t.from_centre_id then
    if t.state = 'on-the-road' then perform end_transfer(t.id, 'turned-back', v_at); end if;
  elsif w.keeper in ('centre', 'practice') then
    if w.keeper = 'centre' or t.state = 'on-the-road' then perform end_transfer(t.id, 'cancelled', v_at); end if;
  elsif w.keeper = 'driver' and t.state <> 'on-the-road' then
    select j.id into v_journey from journey_animal a join journey j on j.id = a.journey_id
     where a.casualty_id = p_casualty and a.state = 'open' and j.to_centre_id = t.to_centre_id;
    update transfer set state = 'on-the-road', journey_id = v_journey where id = t.id;
  end if;
  -- An ask about a transfer that is over is over.
  update ask set state = 'taken-back' where id = t.ask_id and state = 'put'
     and exists (select from transfer z where z.id = t.id and z.ended_at is not null);
end $$;

create or replace function follow_road() returns trigger language plpgsql as $$
begin
  perform follow_transfer_of(new.casualty_id);
  perform follow_road_of(new.casualty_id);
  return null;
end $$;

-- Agreed, and nobody drove it by its hour: claimed a few at a time, each with its line in the audit.
create function expire_transfers(p_at timestamptz) returns int language plpgsql as $$
declare
  v_count int;
begin
  with due as (
    select id from transfer t
     where state = 'agreed' and lapses_at <= p_at
       and not exists (select from journey_animal a join journey j on j.id = a.journey_id
                        where a.casualty_id = t.casualty_id and a.state = 'open' and j.to_centre_id = t.to_centre_id)
     order by lapses_at, id limit 20 for update skip locked),
  lapsed as (
    update transfer t set state = 'expired', ended_at = p_at from due where t.id = due.id returning t.id)
  insert into audit (at, actor_words, action, subject, subject_id, columns)
  select p_at, 'transfer lapsed', 'transfer.lapse', 'transfer', id::text, '{state,ended_at}' from lapsed;
  get diagnostics v_count = row_count;
  return v_count;
end $$;
