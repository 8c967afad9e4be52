-- Groups of species are added, switched off and housed in setup.

alter table species_group
  add column housing_mark text not null default 'CP',
  add column is_active boolean not null default true,
  drop constraint species_group_within_limits,
  add constraint species_group_within_limits check (
    fits(name, 1, 80) and fits(temperament, 0, 400) and fits(temperament_mark, 1, 80) and fits(housing_mark, 1, 80)
    and fits(stock_mark, 1, 200));
