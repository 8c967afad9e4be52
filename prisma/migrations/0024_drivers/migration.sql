-- Drivers as they are set up: where they drive, in what, when, and whether at night.

alter table driver
  add column area text not null default '',
  add column vehicle text not null default '',
  add column drives_at_night boolean not null default false,
  add column note text not null default '',
  add column version int not null default 1,
  add constraint driver_within_limits check (
    fits(name, 1, 80) and fits(phone, 3, 40) and fits(area, 0, 200) and fits(vehicle, 0, 200) and fits(note, 0, 400));

create table driver_hours (
  id int primary key generated always as identity,
  driver_id int not null references driver on delete cascade,
  weekday int not null constraint driver_hours_weekday_in_range check (weekday between 1 and 7),
  opens_minute int not null,
  closes_minute int not null,
  constraint driver_hours_in_order check (opens_minute >= 0 and opens_minute < closes_minute and closes_minute <= 1440),
  constraint driver_hours_not_overlapping exclude using gist
    (driver_id with =, weekday with =, int4range(opens_minute, closes_minute) with &&)
);
