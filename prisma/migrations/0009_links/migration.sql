-- Links that let somebody do one thing without an account, and mail that is on its way.

create table one_time_link (
  id int primary key generated always as identity,
  token_hash text not null constraint one_time_link_token_once unique, -- the token itself is kept nowhere
  purpose text not null constraint one_time_link_purpose_known check (purpose in ('ask', 'invitation', 'reset')),
  ask_id int references ask,
  person_id int references person,
  made_at timestamptz not null,
  made_by int references person,
  expires_at timestamptz not null,
  opened_at timestamptz, -- for the first time
  used_at timestamptz,
  revoked_at timestamptz,
  constraint one_time_link_token_is_a_hash check (token_hash ~ '^[0-9a-f]{64}$'),
  constraint one_time_link_is_for_one_thing check
    ((purpose = 'ask') = (ask_id is not null) and (purpose <> 'ask') = (person_id is not null)),
  constraint one_time_link_expires_after_it_was_made check (expires_at > made_at),
  constraint one_time_link_ends_once check (num_nonnulls(used_at, revoked_at) <= 1)
);
create index one_time_link_of_ask on one_time_link (ask_id) where used_at is null and revoked_at is null;
create index one_time_link_of_person on one_time_link (person_id) where used_at is null and revoked_at is null;

-- A mail leaves at least once; what it said is forgotten with that.
create table outbox (
  id int primary key generated always as identity,
  key text not null constraint outbox_key_once unique,
  to_address text,
  subject text,
  body text,
  queued_at timestamptz not null,
  due_at timestamptz not null,
  tries int not null default 0 constraint outbox_tries_not_negative check (tries >= 0),
  sent_at timestamptz,
  given_up_at timestamptz,
  last_fault text,
  constraint outbox_ends_once check (num_nonnulls(sent_at, given_up_at) <= 1),
  constraint outbox_ended_is_emptied check
    ((num_nonnulls(sent_at, given_up_at) = 0) = (num_nonnulls(to_address, subject, body) = 3)
      and num_nonnulls(to_address, subject, body) in (0, 3))
);
create index outbox_due on outbox (due_at) where sent_at is null and given_up_at is null;
