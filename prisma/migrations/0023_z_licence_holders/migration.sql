-- Licence rules by kind of holder and jurisdiction, who is authorised for what, and what was done about a clock.

alter table reference_key
  add column clock_holders text[] not null default '{}',
  add column needs_holder boolean not null default false,
  add constraint reference_key_clock_holders_known check (clock_holders <@ array['authorised person', 'vet', 'anyone']),
  add constraint reference_key_clocks_name_their_holders
    check (cardinality(clock_holders) in (0, cardinality(clock_days)));
-- As the rules themselves say (trade S96, S97, S98).
update reference_key set clock_holders = '{authorised person,vet}', needs_holder = true
 where kind = 'licence' and key = 'en-schedule-4-keeping' and clock_days = '{15,42}';
update reference_key set clock_holders = '{vet}', needs_holder = true
 where kind = 'licence' and key = 'sc-schedule-4-keeping' and clock_days = '{42}';

create table licence_holder (
  kind text not null default 'licence' constraint licence_holder_kind_known check (kind = 'licence'),
  key text not null,
  centre_id int not null references centre,
  licence_no text not null,
  valid_from date not null,
  valid_until date,
  primary key (key, centre_id),
  foreign key (kind, key) references reference_key (kind, key),
  constraint licence_holder_ends_after_it_begins check (valid_until >= valid_from),
  constraint licence_holder_within_limits check (fits(licence_no, 1, 80))
);
create trigger licence_holder_is_knowledge after insert or update or delete on licence_holder
  for each statement execute function knowledge_changed();

-- What was done about a clock, so that it warns no more: registered, licensed, told to the authority.
create table licence_word (
  id int primary key generated always as identity,
  entry_id int not null references entry,
  casualty_id int not null references casualty,
  key text not null,
  at timestamptz not null,
  words text not null,
  constraint licence_word_within_limits check (fits(words, 1, 200))
);
create index licence_word_by_casualty on licence_word (casualty_id, key);
create trigger licence_word_is_append_only before update or delete on licence_word
  for each row execute function append_only();
create trigger licence_word_is_never_emptied before truncate on licence_word execute function append_only();

-- Whether a rule of a jurisdiction holds where the network is: GB holds in each of its countries.
create function licence_applies(p_rule text, p_network text) returns boolean language sql immutable as $$
  select p_rule is null
      or lower(p_network) = any (regexp_split_to_array(lower(p_rule), '\s*(?:,|;|\sand\s)\s*'))
      or lower(p_rule) = 'gb' and lower(p_network) in ('england', 'wales', 'scotland')
      or lower(p_network) = 'gb' and lower(p_rule) <> 'eu'
$$;

-- A place at a centre that is not authorised for the animal is not promised. Where it is already, it may move.
create function claim_by_an_authorised_holder() returns trigger language plpgsql as $$
begin
  if exists (
    select from casualty c
      join species s on s.slug = c.species_slug
      join reference_key k on k.kind = 'licence' and k.needs_holder and k.key = any (s.licence_keys)
      join enclosure e on e.id = new.enclosure_id
      join network n on licence_applies(k.jurisdiction, n.jurisdiction)
     where c.id = new.casualty_id
       and not exists (select from whereabouts w
             where w.casualty_id = c.id and w.until is null and w.centre_id = e.centre_id)
       and not exists (select from licence_holder h
             where h.key = k.key and h.centre_id = e.centre_id
               and daterange(h.valid_from, h.valid_until, '[]') @> (new.starts_at at time zone n.time_zone)::date)) then
    perform refuse('claim_by_an_authorised_holder');
  end if;
  return new;
end $$;
create trigger claim_by_an_authorised_holder before insert on claim
  for each row when (new.kind = 'hold') execute function claim_by_an_authorised_holder();

-- As before, with the holders of each rule and where the network is.
create or replace function knowledge_snapshot() returns jsonb language sql stable as $$
select jsonb_build_object(
  'revision', n.knowledge_revision,
  'jurisdiction', n.jurisdiction,
  'groups', coalesce((select jsonb_agg(to_jsonb(g) order by g.slug) from species_group g), '[]'),
  'species', coalesce((select jsonb_agg(to_jsonb(s) order by s.common_name) from species s where s.is_active), '[]'),
  'conditions', coalesce((select jsonb_agg(to_jsonb(c) order by c.slug) from condition c where c.is_active), '[]'),
  'planGroups', coalesce((select jsonb_agg(to_jsonb(g) order by g.slug) from plan_group g), '[]'),
  'plans', coalesce((select jsonb_agg(to_jsonb(p) || jsonb_build_object(
      'stages', (select jsonb_agg(to_jsonb(s) order by s.stage_no) from care_plan_stage s where s.plan_id = p.id),
      'gates', coalesce((select jsonb_agg(to_jsonb(g) order by g.id) from care_plan_gate g where g.plan_id = p.id), '[]')) order by p.id)
      from care_plan p where p.is_active and exists (select from care_plan_stage s where s.plan_id = p.id)), '[]'),
  'keys', coalesce((select jsonb_agg(to_jsonb(k) || jsonb_build_object('holders', coalesce(
      (select jsonb_agg(jsonb_build_object('centreId', h.centre_id, 'from', h.valid_from, 'until', h.valid_until) order by h.centre_id)
         from licence_holder h where h.kind = k.kind and h.key = k.key), '[]')) order by k.kind, k.key) from reference_key k), '[]'),
  'places', coalesce((select jsonb_agg(to_jsonb(z) order by z.name) from gazetteer_place z where z.is_active), '[]')
) from network n $$;
