-- Seasons of species are changed in setup, over the version that was read, and switched off instead of deleted.
alter table species_season
  add column is_active boolean not null default true,
  add column version int not null default 1;
