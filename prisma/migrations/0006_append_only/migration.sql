-- What was recorded stays. A correction is a new row; only words about people can be taken out, and then it says when.

-- Arguments: the columns whose text may become null, together with erased_at.
create function append_only() returns trigger language plpgsql as $$
declare
  v_free text[] := coalesce(tg_argv, '{}');
  v_old jsonb;
  v_new jsonb;
  v_column text;
begin
  if tg_op = 'UPDATE' then
    v_old := to_jsonb(old);
    v_new := to_jsonb(new);
    -- The revision is known only when the entry is closed.
    if tg_table_name = 'entry' and v_old ->> 'revision' is null then
      v_old := v_old - 'revision';
      v_new := v_new - 'revision';
    end if;
    if v_old = v_new then return new; end if;
    if cardinality(v_free) > 0 and v_new ->> 'erased_at' is not null then
      v_old := v_old - 'erased_at';
      v_new := v_new - 'erased_at';
      foreach v_column in array v_free loop
        if v_new ->> v_column is null then
          v_old := v_old - v_column;
          v_new := v_new - v_column;
        end if;
      end loop;
      if v_old = v_new then return new; end if;
    end if;
  end if;
  raise exception 'what was recorded stays: constraint "%_is_append_only"', tg_table_name using errcode = '23514';
end $$;

create trigger entry_is_append_only before update or delete on entry
  for each row execute function append_only('reason');
create trigger keeping_is_append_only before update or delete on keeping
  for each row execute function append_only('override_reason');
create trigger audit_is_append_only before update or delete on audit
  for each row execute function append_only('reason');
create trigger stage_fact_is_append_only before update or delete on stage_fact
  for each row execute function append_only();
create trigger identification_is_append_only before update or delete on identification
  for each row execute function append_only();
create trigger finding_is_append_only before update or delete on finding
  for each row execute function append_only();

create trigger entry_is_never_emptied before truncate on entry execute function append_only();
create trigger keeping_is_never_emptied before truncate on keeping execute function append_only();
create trigger audit_is_never_emptied before truncate on audit execute function append_only();
create trigger stage_fact_is_never_emptied before truncate on stage_fact execute function append_only();
create trigger identification_is_never_emptied before truncate on identification execute function append_only();
create trigger finding_is_never_emptied before truncate on finding execute function append_only();
