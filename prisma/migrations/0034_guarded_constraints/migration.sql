-- No query may read by the index of an exclusion constraint. A GiST scan that is started again within one statement (the
-- inner side of a nested loop) keeps its list of dead entries; when another transaction splits the page meanwhile, the list
-- marks entries of rows that stand (PostgreSQL 15 and 18: gistrescan resets neither numKilled nor curBlkno). Those rows are
-- then hidden from readers and from the constraint itself. The constraint's own scans start once and are safe, so it is
-- enough that the planner can't use the index: it can't prove a predicate that it can't look into.
create function constraint_only(anyelement) returns anyelement language plpgsql immutable parallel safe as $$
begin
  return $1;
end $$;

alter table claim
  drop constraint claim_place_taken_once,
  drop constraint claim_company_compatible,
  drop constraint claim_room_apart,
  drop constraint claim_casualty_in_one_place,
  add constraint claim_place_taken_once exclude using gist
    (enclosure_id with =, place_no with =, tstzrange(starts_at, ends_at) with &&) where (constraint_only(state) = 'live'),
  add constraint claim_company_compatible exclude using gist
    (enclosure_id with =, company_key with <>, tstzrange(starts_at, ends_at) with &&) where (constraint_only(state) = 'live'),
  add constraint claim_room_apart exclude using gist
    (room_apart_id with =, preys with <>, tstzrange(starts_at, ends_at) with &&)
    where (constraint_only(state) = 'live' and room_apart_id is not null),
  add constraint claim_casualty_in_one_place exclude using gist
    (casualty_id with =, tstzrange(starts_at, ends_at) with &&)
    where (constraint_only(state) = 'live' and kind = 'stay') deferrable initially deferred;

alter table whereabouts
  drop constraint whereabouts_one_keeper,
  add constraint whereabouts_one_keeper exclude using gist
    (casualty_id with =, tstzrange(since, until) with &&)
    where (constraint_only(casualty_id) is not null) deferrable initially deferred;

alter table casualty
  drop constraint casualty_reference_not_reused_for_two_years,
  add constraint casualty_reference_not_reused_for_two_years exclude using gist
    (reference with =, daterange(given_on, given_on + 730) with &&) where (constraint_only(reference) is not null);
create index casualty_by_reference on casualty (reference);

alter table movement_stop
  drop constraint movement_stop_one_at_a_time,
  add constraint movement_stop_one_at_a_time exclude using gist
    (centre_id with =, tstzrange(starts_at, ends_at) with &&) where (constraint_only(centre_id) is not null);

alter table centre_word
  drop constraint centre_word_one_at_a_time,
  add constraint centre_word_one_at_a_time exclude using gist
    (centre_id with =, kind with =, tstzrange(said_at, least(until, lifted_at)) with &&)
    where (constraint_only(centre_id) is not null);

alter table centre_hours
  drop constraint centre_hours_not_overlapping,
  add constraint centre_hours_not_overlapping exclude using gist
    (centre_id with =, weekday with =, int4range(opens_minute, closes_minute) with &&)
    where (constraint_only(centre_id) is not null);

alter table practice_hours
  drop constraint practice_hours_not_overlapping,
  add constraint practice_hours_not_overlapping exclude using gist
    (practice_id with =, weekday with =, int4range(opens_minute, closes_minute) with &&)
    where (constraint_only(practice_id) is not null);

alter table driver_hours
  drop constraint driver_hours_not_overlapping,
  add constraint driver_hours_not_overlapping exclude using gist
    (driver_id with =, weekday with =, int4range(opens_minute, closes_minute) with &&)
    where (constraint_only(driver_id) is not null);
