-- Three snapshots, each read in one statement and so of one moment: the network tonight, its housing, and what the
-- trade knows. Housing and knowledge change only in setup; their own counters spare every call the reading of them.
alter table network add column knowledge_revision int not null default 0;

-- Apart from the network's row, which every fact locks last: setup touches this one first and settles enclosures after.
create table housing_counter (
  id int primary key default 1 constraint housing_counter_is_one check (id = 1),
  revision int not null default 0
);
insert into housing_counter default values;

create function knowledge_changed() returns trigger language plpgsql as $$
begin
  update network set knowledge_revision = knowledge_revision + 1;
  return null;
end $$;

do $$
declare subject text;
begin
  foreach subject in array array['reference_key', 'company', 'species_group', 'species', 'condition', 'plan_group',
    'care_plan', 'care_plan_stage', 'care_plan_gate', 'gazetteer_place'] loop
    execute format('create trigger %I after insert or update or delete on %I for each statement execute function knowledge_changed()',
      subject || '_is_knowledge', subject);
  end loop;
end $$;

create function housing_changed() returns trigger language plpgsql as $$
begin
  update housing_counter set revision = revision + 1;
  return null;
end $$;

create trigger room_is_housing after insert or update or delete on room for each statement execute function housing_changed();
create trigger stocking_is_housing after insert or update or delete on stocking for each statement execute function housing_changed();
create trigger enclosure_is_housing after insert or delete on enclosure for each statement execute function housing_changed();
-- Not settled_at, which moves with every fact.
create trigger enclosure_is_rehoused after update of room_id, name, housing_type, size_rank, width_m, length_m, height_m, features,
  turnaround_min, dries_after, walking_order, is_active on enclosure for each statement execute function housing_changed();

-- Everything placement and forecast need to know of this moment but its housing, as one JSON value.
create function network_snapshot(as_at timestamptz) returns jsonb language sql stable as $$
select jsonb_build_object(
  'revision', n.revision,
  'knowledgeRevision', n.knowledge_revision,
  'housingRevision', (select h.revision from housing_counter h),
  'name', n.name,
  'zone', n.time_zone,
  'linePhone', n.line_phone,
  'authorityName', n.authority_name,
  'authorityPhone', n.authority_phone,
  'policy', (select to_jsonb(p) from policy p),
  'centres', coalesce((select jsonb_agg(jsonb_build_object(
      'id', c.id, 'name', c.name, 'about', c.about, 'phone', c.phone,
      'latitude', c.latitude, 'longitude', c.longitude,
      'nightDoor', c.night_door, 'nightName', c.night_name, 'nightPhone', c.night_phone,
      'countedAt', c.counted_at,
      'hours', coalesce((select jsonb_agg(jsonb_build_object('weekday', h.weekday, 'opensMinute', h.opens_minute, 'closesMinute', h.closes_minute) order by h.weekday, h.opens_minute)
        from centre_hours h where h.centre_id = c.id), '[]'),
      'takes', coalesce((select jsonb_agg(t.group_slug order by t.group_slug) from centre_takes t where t.centre_id = c.id), '[]'),
      'offers', coalesce((select jsonb_agg(jsonb_build_object('group', o.group_slug, 'places', o.places) order by o.group_slug)
        from standing_offer o where o.centre_id = c.id), '[]'),
      'stop', (select jsonb_build_object('siteState', s.site_state, 'coversClass', s.covers_class, 'startsAt', s.starts_at, 'endsAt', s.ends_at, 'reason', s.reason)
        from movement_stop s where s.centre_id = c.id and s.starts_at <= as_at and (s.ends_at is null or s.ends_at > as_at) limit 1)
    ) order by c.id) from centre c where c.is_active), '[]'),
  'travel', coalesce((select jsonb_agg(jsonb_build_object('from', t.from_centre_id, 'to', t.to_centre_id, 'km', t.km, 'minutes', t.minutes)) from travel t), '[]'),
  'closures', coalesce((select jsonb_agg(jsonb_build_object('enclosureId', x.enclosure_id, 'startsAt', x.starts_at, 'endsAt', x.ends_at, 'reason', x.reason) order by x.id)
      from closure x where x.lifted_at is null and (x.ends_at is null or x.ends_at > as_at)), '[]'),
  'claims', coalesce((select jsonb_agg(jsonb_build_object(
      'id', k.id, 'kind', k.kind, 'enclosureId', k.enclosure_id, 'placeNo', k.place_no, 'companyKey', k.company_key, 'roomApartId', k.room_apart_id, 'preys', k.preys,
      'casualtyId', k.casualty_id, 'startsAt', k.starts_at, 'endsAt', k.ends_at, 'expectedAt', k.expected_at, 'expiresAt', k.expires_at) order by k.id)
      from claim k where k.state = 'live' and (k.ends_at is null or k.ends_at > as_at)), '[]'),
  'residents', coalesce((select jsonb_agg(jsonb_build_object(
      'id', c.id, 'reference', c.reference, 'species', c.species_slug, 'age', c.age, 'company', c.company_slug,
      'isAlone', c.is_alone, 'arrivalId', c.arrival_id,
      'keeper', w.keeper, 'centreId', w.centre_id, 'enclosureId', w.enclosure_id, 'since', w.since,
      'stages', coalesce((select jsonb_agg(jsonb_build_object('no', s.stage_no, 'stage', s.stage, 'housing', s.housing_type, 'housingAlso', to_jsonb(s.housing_also), 'features', to_jsonb(s.features),
          'centreId', s.centre_id, 'estimate', s.estimate) order by s.stage_no)
        from casualty_stage s where s.casualty_plan_id = (select max(p.id) from casualty_plan p where p.casualty_id = c.id)), '[]'),
      'began', (select jsonb_build_object('no', f.stage_no, 'at', f.at) from stage_fact f where f.casualty_id = c.id and f.kind = 'began' and not f.is_void
          and not exists (select from stage_fact z where z.supersedes = f.id) order by f.stage_no desc, f.id desc limit 1),
      'ready', (select jsonb_build_object('no', f.stage_no, 'at', f.at) from stage_fact f where f.casualty_id = c.id and f.kind = 'ready' and not f.is_void
          and not exists (select from stage_fact z where z.supersedes = f.id) order by f.stage_no desc, f.id desc limit 1)
    ) order by c.id)
    from whereabouts w join casualty c on c.id = w.casualty_id where w.until is null and w.keeper <> 'nobody'), '[]'),
  'arrivals', coalesce((select jsonb_agg(jsonb_build_object('centreId', y.centre_id, 'group', y.group_slug, 'animalsPerYear', y.animals_per_year,
      'monthShares', to_jsonb(y.month_shares), 'eventSizes', to_jsonb(y.event_sizes)) order by y.centre_id, y.group_slug)
      from year_arrivals y join centre c on c.id = y.centre_id where c.is_active and y.animals_per_year > 0), '[]'),
  'practices', coalesce((select jsonb_agg(jsonb_build_object('id', p.id, 'name', p.name, 'phone', p.phone, 'latitude', p.latitude, 'longitude', p.longitude,
      'hasNightCover', p.has_night_cover, 'nightPhone', p.night_phone, 'note', p.note,
      'hours', coalesce((select jsonb_agg(jsonb_build_object('weekday', h.weekday, 'opensMinute', h.opens_minute, 'closesMinute', h.closes_minute) order by h.weekday, h.opens_minute)
        from practice_hours h where h.practice_id = p.id), '[]'),
      'sees', coalesce((select jsonb_agg(s.group_slug order by s.group_slug) from practice_sees s where s.practice_id = p.id), '[]')) order by p.id)
      from practice p where p.is_active), '[]'),
  'outsidePlaces', coalesce((select jsonb_agg(jsonb_build_object('id', o.id, 'name', o.name, 'phone', o.phone, 'takesWords', o.takes_words,
      'hoursWords', o.hours_words, 'latitude', o.latitude, 'longitude', o.longitude,
      'takes', coalesce((select jsonb_agg(t.group_slug order by t.group_slug) from outside_place_takes t where t.outside_place_id = o.id), '[]')) order by o.id)
      from outside_place o where o.is_active), '[]')
) from network n $$;

create function knowledge_snapshot() returns jsonb language sql stable as $$
select jsonb_build_object(
  'revision', n.knowledge_revision,
  'groups', coalesce((select jsonb_agg(to_jsonb(g) order by g.slug) from species_group g), '[]'),
  'species', coalesce((select jsonb_agg(to_jsonb(s) order by s.common_name) from species s where s.is_active), '[]'),
  'conditions', coalesce((select jsonb_agg(to_jsonb(c) order by c.slug) from condition c where c.is_active), '[]'),
  'planGroups', coalesce((select jsonb_agg(to_jsonb(g) order by g.slug) from plan_group g), '[]'),
  'plans', coalesce((select jsonb_agg(to_jsonb(p) || jsonb_build_object(
      'stages', (select jsonb_agg(to_jsonb(s) order by s.stage_no) from care_plan_stage s where s.plan_id = p.id),
      'gates', coalesce((select jsonb_agg(to_jsonb(g) order by g.id) from care_plan_gate g where g.plan_id = p.id), '[]')) order by p.id)
      from care_plan p where p.is_active and exists (select from care_plan_stage s where s.plan_id = p.id)), '[]'),
  'keys', coalesce((select jsonb_agg(to_jsonb(k) order by k.kind, k.key) from reference_key k), '[]'),
  'places', coalesce((select jsonb_agg(to_jsonb(z) order by z.name) from gazetteer_place z), '[]')
) from network n $$;

create function housing_snapshot() returns jsonb language sql stable as $$
with stocked as (select enclosure_id, jsonb_object_agg(company_slug, places) as places from stocking group by enclosure_id)
select jsonb_build_object(
  'revision', h.revision,
  'enclosures', coalesce((select jsonb_agg(jsonb_build_object(
      'id', e.id, 'centreId', e.centre_id, 'roomId', e.room_id, 'roomName', r.name, 'predatorsApart', r.predators_apart, 'name', e.name, 'housing', e.housing_type,
      'sizeRank', e.size_rank, 'lengthM', greatest(e.length_m, e.width_m), 'features', to_jsonb(e.features), 'turnaroundMin', e.turnaround_min,
      'stocking', coalesce(s.places, '{}')) order by e.id)
    from enclosure e join room r on r.id = e.room_id left join stocked s on s.enclosure_id = e.id
   where e.is_active and r.is_active), '[]')
) from housing_counter h $$;
