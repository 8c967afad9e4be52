-- A fact touches a handful of rows of large tables, always through the same indexes. Planned anew for each call, the
-- settling of one enclosure took ten milliseconds, nine of them for plans that read every casualty: the statistics
-- count each open stay for every enclosure. One plan a connection and steps by index take one.
alter function record_keepings(jsonb, timestamptz)
  set plan_cache_mode = force_generic_plan set enable_hashjoin = off set enable_mergejoin = off;
alter function settle(int[], timestamptz, timestamptz)
  set plan_cache_mode = force_generic_plan set enable_hashjoin = off set enable_mergejoin = off;
