-- An end that is taken back: the checks that it called off are owed again. What else ended with it (holds, asks, a
-- booked departure, a journey) stays ended, since others may have been promised the same; the card names it.
create or replace function follow_projection(p_casualties int[], p_stay_before jsonb, p_at timestamptz) returns void
language plpgsql as $$
declare
  v_closed int[];
begin
  update claim c set state = 'taken', ended_at = p_at
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null
     and c.casualty_id = w.casualty_id and c.enclosure_id = w.enclosure_id and c.kind = 'hold' and c.state = 'live';
  update departure d set state = 'gone'
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null and d.casualty_id = w.casualty_id
     and d.state = 'booked' and w.first_id::text is distinct from p_stay_before ->> w.casualty_id::text;
  -- Only an end calls checks off, so an open case has none that are.
  update check_due c set called_off_at = null
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null and w.keeper <> 'nobody'
     and c.casualty_id = w.casualty_id and c.done_at is null and c.called_off_at is not null;
  select array_agg(casualty_id) into v_closed
    from whereabouts where casualty_id = any (p_casualties) and until is null and keeper = 'nobody';
  if v_closed is null then return; end if;
  update claim set state = 'given-up', ended_at = p_at
   where casualty_id = any (v_closed) and kind = 'hold' and state = 'live';
  update departure set state = 'gone' where casualty_id = any (v_closed) and state = 'booked';
  update check_due set called_off_at = p_at
   where casualty_id = any (v_closed) and done_at is null and called_off_at is null;
  update ask set state = 'taken-back' where casualty_id = any (v_closed) and state in ('written', 'put');
  update referral set closed_at = p_at where casualty_id = any (v_closed) and closed_at is null;
end $$;
