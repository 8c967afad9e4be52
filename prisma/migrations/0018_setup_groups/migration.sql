-- Groups of species are added, switched off and housed in setup.

alter table species_group
  add column housing_mark text not null default 'CP',
  add column is_active boolean not null default true,
  drop constraint species_group_within_limits,
  add constraint species_group_within_limits check (
    fits(name, 1, 80) and fits(temperament, 0, 400) and fits(temperament_mark, 1, 80) and fits(housing_mark, 1, 80)
    and fits(stock_mark, 1, 200));

-- Which cautions a condition calls for is changed in setup, with where that is from.
alter table condition
  add column mark_cautions text,
  drop constraint condition_within_limits,
  add constraint condition_within_limits check (
    fits(name, 1, 80) and all_fit(words, 40, 80) and fits(mark_urgency, 1, 80) and fits(may_need_surgeon, 1, 60)
    and fits(mark_surgeon, 1, 80) and fits(deadline_note, 1, 400) and fits(mark_deadline, 1, 80)
    and fits(mark_quarantine, 1, 80) and fits(mark_cautions, 1, 80) and all_fit(asks_first, 40, 60) and all_fit(cautions, 40, 60));
