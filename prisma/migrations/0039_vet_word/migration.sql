-- "Two more weeks": how much longer a vet thinks an animal needs in the stage it is in. A fact of its own; a new one stands
-- beside the old, and one recorded by mistake is taken back by a line that voids it.
create table vet_word (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  stage_no int not null,
  at timestamptz not null,
  at_earliest timestamptz,
  at_latest timestamptz,
  in_days int not null, -- from the day it was said; as often sooner as later
  said_by text not null,
  is_void boolean not null default false,
  supersedes int references vet_word,
  constraint vet_word_in_days_in_range check (in_days between 1 and 730),
  constraint vet_word_within_its_precision check
    ((at_earliest is null) = (at_latest is null) and at_earliest <= at and at <= at_latest),
  constraint vet_word_void_names_what_it_takes_back check (is_void = (supersedes is not null)),
  constraint vet_word_superseded_once unique (supersedes),
  constraint vet_word_within_limits check (fits(said_by, 1, 80))
);
create index vet_word_by_casualty on vet_word (casualty_id);

create trigger vet_word_is_append_only before update or delete on vet_word
  for each row execute function append_only();
create trigger vet_word_is_never_emptied before truncate on vet_word execute function append_only();

-- Words that stand. One counts while nobody gave its stage another length since it was said: the newer of the two holds.
create view vet_word_now as
select w.id, w.casualty_id, w.stage_no, w.at, w.in_days,
       not exists (
         select from casualty_plan p
           join entry e on e.id = p.entry_id
           join casualty_stage s on s.casualty_plan_id = p.id and s.stage_no = w.stage_no
           join casualty_plan q on q.casualty_id = p.casualty_id and q.version_no = p.version_no - 1
           join casualty_stage o on o.casualty_plan_id = q.id and o.stage_no = s.stage_no
          where p.casualty_id = w.casualty_id and e.entered_at > w.at
            and s.estimate -> 'ready' is distinct from o.estimate -> 'ready') as counts
  from vet_word w
 where not w.is_void and not exists (select from vet_word z where z.supersedes = w.id);
