-- The network's snapshot in a third of the time: text as it comes (json) rather than sorted and packed at every level
-- (jsonb), those in care and the claims in force found by indexes of their own. Every call waits for it after a change.
create index whereabouts_now on whereabouts (casualty_id) where until is null and keeper <> 'nobody';
create index claim_until on claim (ends_at) where state = 'live';

drop function network_snapshot(timestamptz);

-- Animal by animal (offset 0): joined as a whole, every animal that ever was would be read for the few in care.
create function network_snapshot(as_at timestamptz) returns json language sql stable as $$
select json_build_object(
  'revision', n.revision,
  'knowledgeRevision', n.knowledge_revision,
  'housingRevision', (select h.revision from housing_counter h),
  'name', n.name,
  'zone', n.time_zone,
  'linePhone', n.line_phone,
  'authorityName', n.authority_name,
  'authorityPhone', n.authority_phone,
  'policy', (select to_json(p) from policy p),
  'centres', coalesce((select json_agg(json_build_object(
      'id', c.id, 'name', c.name, 'about', c.about, 'phone', c.phone,
      'latitude', c.latitude, 'longitude', c.longitude,
      'nightDoor', c.night_door, 'nightName', c.night_name, 'nightPhone', c.night_phone,
      'countedAt', c.counted_at,
      'hours', coalesce((select json_agg(json_build_object('weekday', h.weekday, 'opensMinute', h.opens_minute, 'closesMinute', h.closes_minute) order by h.weekday, h.opens_minute)
        from centre_hours h where h.centre_id = c.id), '[]'),
      'takes', coalesce((select json_agg(t.group_slug order by t.group_slug) from centre_takes t where t.centre_id = c.id), '[]'),
      'offers', coalesce((select json_agg(json_build_object('group', o.group_slug, 'places', o.places) order by o.group_slug)
        from standing_offer o where o.centre_id = c.id), '[]'),
      'stop', (select json_build_object('siteState', s.site_state, 'coversClass', s.covers_class, 'startsAt', s.starts_at, 'endsAt', s.ends_at, 'reason', s.reason)
        from movement_stop s where s.centre_id = c.id and s.starts_at <= as_at and (s.ends_at is null or s.ends_at > as_at) limit 1)
    ) order by c.id) from centre c where c.is_active), '[]'),
  'travel', coalesce((select json_agg(json_build_object('from', t.from_centre_id, 'to', t.to_centre_id, 'km', t.km, 'minutes', t.minutes) order by t.from_centre_id, t.to_centre_id) from travel t), '[]'),
  'closures', coalesce((select json_agg(json_build_object('enclosureId', x.enclosure_id, 'startsAt', x.starts_at, 'endsAt', x.ends_at, 'reason', x.reason) order by x.id)
      from closure x where x.lifted_at is null and (x.ends_at is null or x.ends_at > as_at)), '[]'),
  'claims', coalesce((select json_agg(json_build_object(
      'id', k.id, 'kind', k.kind, 'enclosureId', k.enclosure_id, 'placeNo', k.place_no, 'companyKey', k.company_key, 'roomApartId', k.room_apart_id, 'preys', k.preys,
      'casualtyId', k.casualty_id, 'startsAt', k.starts_at, 'endsAt', k.ends_at, 'expectedAt', k.expected_at, 'expiresAt', k.expires_at) order by k.id)
      from claim k where k.state = 'live' and (k.ends_at is null or k.ends_at > as_at)), '[]'),
  'residents', coalesce((select json_agg(json_build_object(
      'id', c.id, 'reference', c.reference, 'species', c.species_slug, 'age', c.age, 'company', c.company_slug,
      'isAlone', c.is_alone, 'arrivalId', c.arrival_id,
      'keeper', w.keeper, 'centreId', w.centre_id, 'enclosureId', w.enclosure_id, 'since', w.since,
      'stages', coalesce((select json_agg(json_build_object('no', s.stage_no, 'stage', s.stage, 'housing', s.housing_type, 'housingAlso', to_json(s.housing_also), 'features', to_json(s.features),
          'centreId', s.centre_id, 'estimate', s.estimate) order by s.stage_no)
        from casualty_stage s where s.casualty_plan_id = (select max(p.id) from casualty_plan p where p.casualty_id = c.id)), '[]'),
      'began', (select json_build_object('no', f.stage_no, 'at', f.at) from stage_fact f where f.casualty_id = c.id and f.kind = 'began' and not f.is_void
          and not exists (select from stage_fact z where z.supersedes = f.id) order by f.stage_no desc, f.id desc limit 1),
      'ready', (select json_build_object('no', f.stage_no, 'at', f.at) from stage_fact f where f.casualty_id = c.id and f.kind = 'ready' and not f.is_void
          and not exists (select from stage_fact z where z.supersedes = f.id) order by f.stage_no desc, f.id desc limit 1)
    ) order by c.id)
    from whereabouts w cross join lateral (select x.* from casualty x where x.id = w.casualty_id offset 0) c
    where w.until is null and w.keeper <> 'nobody'), '[]'),
  'arrivals', coalesce((select json_agg(json_build_object('centreId', y.centre_id, 'group', y.group_slug, 'animalsPerYear', y.animals_per_year,
      'monthShares', to_json(y.month_shares), 'eventSizes', to_json(y.event_sizes)) order by y.centre_id, y.group_slug)
      from year_arrivals y join centre c on c.id = y.centre_id where c.is_active and y.animals_per_year > 0), '[]'),
  'practices', coalesce((select json_agg(json_build_object('id', p.id, 'name', p.name, 'phone', p.phone, 'latitude', p.latitude, 'longitude', p.longitude,
      'hasNightCover', p.has_night_cover, 'nightPhone', p.night_phone, 'note', p.note,
      'hours', coalesce((select json_agg(json_build_object('weekday', h.weekday, 'opensMinute', h.opens_minute, 'closesMinute', h.closes_minute) order by h.weekday, h.opens_minute)
        from practice_hours h where h.practice_id = p.id), '[]'),
      'sees', coalesce((select json_agg(s.group_slug order by s.group_slug) from practice_sees s where s.practice_id = p.id), '[]')) order by p.id)
      from practice p where p.is_active), '[]'),
  'outsidePlaces', coalesce((select json_agg(json_build_object('id', o.id, 'name', o.name, 'phone', o.phone, 'takesWords', o.takes_words,
      'hoursWords', o.hours_words, 'latitude', o.latitude, 'longitude', o.longitude,
      'takes', coalesce((select json_agg(t.group_slug order by t.group_slug) from outside_place_takes t where t.outside_place_id = o.id), '[]')) order by o.id)
      from outside_place o where o.is_active), '[]')
) from network n $$;
