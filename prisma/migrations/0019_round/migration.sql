-- What was said on the round, line by line: what stands, what was taken back, and what waits for a person because
-- somebody else had recorded otherwise meanwhile. The facts themselves are where all facts are; this is what was tapped.
create table round_entry (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  centre_id int not null references centre,
  casualty_id int references casualty,
  kind text not null constraint round_entry_kind_known
    check (kind in ('counted', 'weight', 'check', 'stage', 'moved', 'out', 'not-there', 'undo')),
  -- By the clock of the network; a phone without signal sends it later.
  happened_at timestamptz not null,
  said jsonb not null, -- numbers and terms of ours, never words that somebody typed
  state text not null constraint round_entry_state_known
    check (state in ('stands', 'taken-back', 'waits', 'set-aside', 'put-right')),
  undoes int references round_entry,
  settled_by int references person,
  settled_at timestamptz,
  constraint round_entry_one_an_entry unique (entry_id),
  constraint round_entry_undone_once unique (undoes),
  constraint round_entry_undo_names_what check ((kind = 'undo') = (undoes is not null)),
  constraint round_entry_is_about_an_animal check (kind in ('counted', 'undo') or casualty_id is not null),
  constraint round_entry_settled_has_a_time check ((state in ('set-aside', 'put-right')) = (settled_at is not null))
);
create index round_entry_by_casualty on round_entry (casualty_id);
create index round_entry_waits on round_entry (centre_id) where state = 'waits';
