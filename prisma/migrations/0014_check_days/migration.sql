-- The first day of the stage that a check's due day was counted from, so that it moves when the stage begins sooner or
-- later than expected. Null: the day hangs on something else (admission, an operation, the check before it, a person).
alter table check_due add counted_from date;
alter table check_due add constraint check_due_not_before_its_stage
  check (counted_from is null or coalesce(due_on >= counted_from, false));
