-- The duty line: who holds it from when until when, and each handover that was offered. What ended stays as it was.

-- Who owes a call now; null is whoever opened it. Passed on when the line or a leaver's duties are.
alter table call add column owner_id int references person;

create table line_turn (
  id int primary key generated always as identity,
  holder_id int not null references person,
  taken_at timestamptz not null,
  -- Until when the holder said she would stay; past it without a handover the line counts as unheld.
  until_at timestamptz not null,
  how text not null constraint line_turn_how_known check (how in ('taken-up', 'accepted', 'taken-over', 'passed-on')),
  reason text,
  -- What was owed at that moment and passed with it, as kind:id.
  passed text[] not null default '{}',
  ended_at timestamptz,
  constraint line_turn_ends_after_it_begins check (until_at > taken_at),
  constraint line_turn_ended_after_it_was_taken check (ended_at >= taken_at),
  constraint line_turn_taken_over_with_a_reason check (how <> 'taken-over' or reason is not null),
  constraint line_turn_within_limits check (fits(reason, 1, 300))
);
create unique index line_turn_one_holder on line_turn ((true)) where ended_at is null;
create index line_turn_by_time on line_turn (taken_at);

create table line_offer (
  id int primary key generated always as identity,
  turn_id int not null references line_turn,
  -- Null: whoever of the desk comes next.
  to_id int references person,
  words text not null default '',
  offered_at timestamptz not null,
  state text not null default 'open' constraint line_offer_state_known check (state in ('open', 'accepted', 'withdrawn', 'overtaken')),
  settled_at timestamptz,
  constraint line_offer_settled_has_a_time check ((state = 'open') = (settled_at is null)),
  constraint line_offer_within_limits check (fits(words, 0, 2000))
);
create unique index line_offer_one_open on line_offer ((true)) where state = 'open';
create index line_offer_by_turn on line_offer (turn_id);

-- A turn that runs may be lengthened and ended, an open offer settled; nothing else changes, nothing goes.
create function line_keeps() returns trigger language plpgsql as $$
declare
  v_free text[] := case tg_table_name when 'line_turn' then array['until_at', 'ended_at'] else array['state', 'settled_at'] end;
begin
  if tg_op = 'UPDATE' and (to_jsonb(old) ->> case tg_table_name when 'line_turn' then 'ended_at' else 'settled_at' end) is null
     and to_jsonb(old) - v_free = to_jsonb(new) - v_free then
    return new;
  end if;
  raise exception 'what was recorded stays: constraint "%_is_append_only"', tg_table_name using errcode = '23514';
end $$;

create trigger line_turn_is_append_only before update or delete on line_turn
  for each row execute function line_keeps();
create trigger line_offer_is_append_only before update or delete on line_offer
  for each row execute function line_keeps();
create trigger line_turn_is_never_emptied before truncate on line_turn execute function append_only();
create trigger line_offer_is_never_emptied before truncate on line_offer execute function append_only();
