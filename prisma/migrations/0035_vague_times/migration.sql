-- What was said of an animal's stay may have happened "some time on Tuesday", as its moves may: the span in which the time
-- lies, where it is not known to the minute. Notes have an entry now, so that the time of writing stands apart.
alter table weight
  add column at_earliest timestamptz,
  add column at_latest timestamptz,
  add constraint weight_within_its_precision check
    ((at_earliest is null) = (at_latest is null) and at_earliest <= at and at <= at_latest);

alter table note
  add column entry_id int references entry,
  add column at_earliest timestamptz,
  add column at_latest timestamptz,
  add constraint note_within_its_precision check
    ((at_earliest is null) = (at_latest is null) and at_earliest <= at and at <= at_latest);

alter table stage_fact
  add column at_earliest timestamptz,
  add column at_latest timestamptz,
  add constraint stage_fact_within_its_precision check
    ((at_earliest is null) = (at_latest is null) and at_earliest <= at and at <= at_latest);

alter table surgery
  add column at_earliest timestamptz,
  add column at_latest timestamptz,
  add constraint surgery_within_its_precision check
    ((at_earliest is null) = (at_latest is null) and at_earliest <= at and at <= at_latest);

alter table check_due
  add column done_earliest timestamptz,
  add column done_latest timestamptz,
  add constraint check_due_within_its_precision check
    ((done_earliest is null) = (done_latest is null) and (done_at is not null or done_earliest is null)
     and done_earliest <= done_at and done_at <= done_latest);
