-- As before, and: a place kept beside the one that an arrived move uses is given back; an end that is taken back has the
-- checks owed again that this very end called off, and no others: the beginning of a stage calls off those of the stages
-- before it. What else ended with it (holds, asks, a booked departure, a journey) stays ended, since others may have been
-- promised the same; the card names it.
create or replace function follow_projection(p_casualties int[], p_stay_before jsonb, p_at timestamptz) returns void
language plpgsql as $$
declare
  v_closed int[];
begin
  update claim c set state = 'taken', ended_at = p_at
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null
     and c.casualty_id = w.casualty_id and c.enclosure_id = w.enclosure_id and c.kind = 'hold' and c.state = 'live';
  -- Arrived by a move, but in another enclosure than the one that was kept: that one is free for others at once.
  update claim c set state = 'given-up', ended_at = p_at
    from whereabouts w
    join transfer t on t.casualty_id = w.casualty_id and t.to_centre_id = w.centre_id
     and t.state in ('agreed', 'on-the-road', 'arrived')
    join enclosure e on e.centre_id = w.centre_id
   where w.casualty_id = any (p_casualties) and w.until is null and w.enclosure_id is not null
     and c.casualty_id = w.casualty_id and c.enclosure_id = e.id and c.kind = 'hold' and c.state = 'live'
     and c.expires_at >= t.lapses_at and c.expected_at <= t.lapses_at;
  update departure d set state = 'gone'
    from whereabouts w
   where w.casualty_id = any (p_casualties) and w.until is null and d.casualty_id = w.casualty_id
     and d.state = 'booked' and w.first_id::text is distinct from p_stay_before ->> w.casualty_id::text;
  update check_due c set called_off_at = null
    from whereabouts w, keeping ended join entry e on e.id = ended.entry_id
   where w.casualty_id = any (p_casualties) and w.until is null and w.keeper <> 'nobody'
     and ended.first_id = (p_stay_before ->> w.casualty_id::text)::int and ended.keeper = 'nobody' and not ended.is_void
     and c.casualty_id = w.casualty_id and c.done_at is null and c.called_off_at = e.entered_at;
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
