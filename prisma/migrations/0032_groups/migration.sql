-- Which animals are counted together, as it was said: put together, parted, told apart, and taken back. An animal's arrival
-- never changes with it. The casualty's own columns are the newest line, written by the trigger alone.

alter table casualty add column told_by text; -- by what it can be told from the others of its batch
create unique index casualty_member_once on casualty (batch_id, member_no);

create table membership (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  kind text not null constraint membership_kind_known check (kind in ('joined', 'parted', 'told-apart', 'taken-back')),
  with_casualty_id int references casualty, -- one of those that it was put together with
  was_batch_id int references batch,
  was_member_no int,
  was_told_by text,
  batch_id int references batch,
  member_no int,
  told_by text,
  supersedes int references membership, -- the line that this one takes back
  constraint membership_superseded_once unique (supersedes),
  constraint membership_changes_something check
    ((batch_id, member_no, told_by) is distinct from (was_batch_id, was_member_no, was_told_by)),
  constraint membership_numbers_its_member check ((batch_id is null) = (member_no is null)),
  constraint membership_takes_back_a_line check ((supersedes is not null) = (kind = 'taken-back')),
  constraint membership_within_limits check (fits(told_by, 1, 80))
);
create index membership_by_casualty on membership (casualty_id, id);
create index membership_by_batch on membership (was_batch_id);
create trigger membership_is_append_only before update or delete on membership
  for each row execute function append_only();
create trigger membership_is_never_emptied before truncate on membership execute function append_only();

-- A line begins where the last one ended, so that of two who write at once none is lost.
create function membership_follows_the_last() returns trigger language plpgsql as $$
begin
  update casualty set batch_id = new.batch_id, member_no = new.member_no, told_by = new.told_by
   where id = new.casualty_id
     and (batch_id, member_no, told_by) is not distinct from (new.was_batch_id, new.was_member_no, new.was_told_by);
  if not found then
    raise exception 'somebody regrouped it meanwhile: constraint "membership_follows_the_last"' using errcode = '23514';
  end if;
  return new;
end $$;
create trigger membership_follows_the_last before insert on membership
  for each row execute function membership_follows_the_last();
