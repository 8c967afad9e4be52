-- People: how often somebody may try to sign in, and when they did.

-- Somebody who was invited has none yet.
alter table person alter column password_hash drop not null;

-- How many tries in a row were refused, and from when on the next one is heard. Shared by every process.
create table sign_in_wait (
  kind text not null constraint sign_in_wait_kind_known check (kind in ('pair', 'account', 'address')),
  key text not null, -- a keyed hash: people type passwords into the field for the e-mail
  refused int not null constraint sign_in_wait_refused_not_negative check (refused >= 0),
  last_at timestamptz not null,
  free_at timestamptz not null,
  primary key (kind, key)
);
create index sign_in_wait_by_age on sign_in_wait (last_at);

-- What a person sees of her own sign-ins; forgotten after a quarter of a year.
create table sign_in (
  id int primary key generated always as identity,
  person_id int not null references person,
  at timestamptz not null,
  how text not null constraint sign_in_how_known check (how in ('password', 'link', 'provider', 'demonstration')),
  address text not null,
  was_let_in boolean not null
);
create index sign_in_by_person on sign_in (person_id, at desc);
create index sign_in_by_age on sign_in (at);
