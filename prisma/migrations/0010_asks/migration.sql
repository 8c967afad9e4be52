-- Asking: who answers for a centre, what a centre says of itself for a while, and an ask that goes from one to the next
-- by itself until somebody answers.

create table centre_contact (
  id int primary key generated always as identity,
  centre_id int not null references centre on delete cascade,
  position int not null constraint centre_contact_position_positive check (position > 0),
  name text not null,
  phone text not null,
  email text,
  from_minute int, -- of the wall clock; from later than until: over midnight; both empty: at any hour
  until_minute int,
  constraint centre_contact_position_once unique (centre_id, position),
  constraint centre_contact_hours_both_or_none check ((from_minute is null) = (until_minute is null)),
  constraint centre_contact_hours_in_range check (
    from_minute between 0 and 1439 and until_minute between 0 and 1440 and from_minute <> until_minute),
  constraint centre_contact_within_limits check (fits(name, 1, 80) and fits(phone, 3, 40) and fits(email, 3, 254))
);

-- What a centre says of itself for a while: it takes no more, or can hand-feed so many rounds a day. Runs out by itself.
create table centre_word (
  id int primary key generated always as identity,
  entry_id int references entry,
  centre_id int not null references centre,
  kind text not null constraint centre_word_kind_known check (kind in ('no-more', 'feeding-rounds')),
  rounds int constraint centre_word_rounds_in_range check (rounds between 0 and 96),
  said_at timestamptz not null,
  until timestamptz not null,
  lifted_at timestamptz,
  constraint centre_word_has_its_rounds check ((kind = 'feeding-rounds') = (rounds is not null)),
  constraint centre_word_ends_after_it_starts check (until > said_at),
  constraint centre_word_lifted_after_it_was_said check (lifted_at >= said_at),
  constraint centre_word_one_at_a_time exclude using gist (
    centre_id with =, kind with =, tstzrange(said_at, least(until, lifted_at)) with &&)
);

create function centre_words(as_at timestamptz) returns json language sql stable as $$
  select coalesce(json_agg(json_build_object(
      'centreId', w.centre_id, 'kind', w.kind, 'rounds', w.rounds, 'until', w.until) order by w.id), '[]')
    from centre_word w where w.lifted_at is null and w.until > as_at
$$;

alter table referral
  add column home_centre_id int references centre, -- where it goes afterwards
  add column offers text not null default '', -- what that centre offers then, in words
  add constraint referral_within_limits check (fits(what, 1, 400) and fits(offers, 0, 400));

alter table ask
  alter column casualty_id set not null,
  add column decision_id int references decision, -- whose options are asked in turn; empty: this one is asked alone
  add column option_key text,
  add column seen_at timestamptz, -- the link was opened
  add column reason text,
  add column comes_at timestamptz, -- when the vet sees it
  add constraint ask_chain_names_its_option check ((decision_id is null) = (option_key is null)),
  add constraint ask_once_a_centre unique (decision_id, centre_id),
  add constraint ask_put_runs_out check (state <> 'put' or num_nonnulls(put_at, lapses_at) = 2),
  add constraint ask_time_is_a_vets_yes check (comes_at is null or (state = 'yes' and practice_id is not null)),
  add constraint ask_vets_yes_has_a_time check (referral_id is null or state <> 'yes' or comes_at is not null),
  add constraint ask_within_limits check (fits(reason, 0, 300) and fits(answered_by_words, 1, 120));
-- One ask of a decision waits at a time and one is answered yes, whatever several processes do at once.
create unique index ask_one_waits_per_decision on ask (decision_id) where state = 'put';
create unique index ask_one_yes_per_decision on ask (decision_id) where state = 'yes';
create index ask_by_casualty on ask (casualty_id);
create index ask_by_call on ask (call_id);
create index ask_by_referral on ask (referral_id);

-- Who was asked, in order, under which number, and until when the answer is waited for.
create table ask_try (
  ask_id int not null references ask,
  try_no int not null constraint ask_try_no_positive check (try_no > 0),
  name text not null,
  phone text not null,
  email text,
  put_at timestamptz not null,
  lapses_at timestamptz not null,
  primary key (ask_id, try_no),
  constraint ask_try_lapses_after_it_was_put check (lapses_at > put_at)
);

-- Takes hold of one ask whose time ran out, the casualty's lock before its own; null when there is none that is free.
create function claim_due_ask(p_at timestamptz) returns int language plpgsql as $$
declare
  v_ask int;
begin
  select a.id into v_ask
    from ask a join casualty c on c.id = a.casualty_id
   where a.state = 'put' and a.lapses_at <= p_at
   order by a.lapses_at, a.id limit 1
     for no key update of c skip locked;
  perform 1 from ask where id = v_ask and state = 'put' and lapses_at <= p_at for update;
  return case when found then v_ask end;
end $$;

-- Ends the holds of casualties at a centre: nobody answered, or it said no. Their locks are held. Returns how many.
create function end_holds_at(p_casualties int[], p_centre int, p_state text, p_at timestamptz) returns int
language plpgsql as $$
declare
  v_enclosures int[];
  v_count int;
begin
  select array_agg(distinct c.enclosure_id) into v_enclosures
    from claim c join enclosure e on e.id = c.enclosure_id
   where c.kind = 'hold' and c.state = 'live' and c.casualty_id = any (p_casualties) and e.centre_id = p_centre;
  if v_enclosures is null then return 0; end if;
  perform lock_enclosures(v_enclosures);
  update claim set state = p_state, ended_at = p_at
   where kind = 'hold' and state = 'live' and casualty_id = any (p_casualties) and enclosure_id = any (v_enclosures);
  get diagnostics v_count = row_count;
  perform settle(v_enclosures, p_at, p_at);
  return v_count;
end $$;

-- Keeps a place in the first of several enclosures whose rules let it; null when every one refuses.
create function hold_first_free(
  p_casualty int, p_enclosures int[], p_starts timestamptz, p_expected timestamptz, p_expires timestamptz,
  p_needs_isolation boolean, p_at timestamptz)
returns int language plpgsql as $$
declare
  v_enclosure int;
begin
  foreach v_enclosure in array p_enclosures loop
    begin
      return plan_hold(p_casualty, v_enclosure, null, p_starts, null, p_expected, p_expires, p_needs_isolation, null, p_at);
    exception when check_violation or exclusion_violation or unique_violation then
      null;
    end;
  end loop;
  return null;
end $$;
