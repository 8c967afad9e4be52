/** How to break the rules of what was learned. */
import { copyOf, known, limits } from './one-of-each.ts'

const nights = (count: number) => `\\x${'00'.repeat(8 * count)}`
const chances = (count: number) => ({
  died: nights(count),
  euthanased: nights(count),
  left_care: nights(count),
  passes: nights(count),
})
const OTHER = { key: 'p2|1' }
const ENDED = { id: 2, cancelled_at: '2026-06-10T13:00Z' }
const FALCONS = { group_slug: 'falcons' }

export const LEARNING_BREAKS = {
  ...limits('job_progress', { job: '' }),
  job_progress_told_since_it_began: copyOf('job_progress', { job: 'y', told_at: '2026-06-10T11:00Z' }),
  job_progress_done_of_all: copyOf('job_progress', { job: 'y', done: 3 }),
  learning_run_weight_positive: copyOf('learning_run', { plan_weight: 0 }),
  learning_run_counts_not_negative: copyOf('learning_run', { animals: -1 }),
  learning_run_digests_are_sha256: copyOf('learning_run', { digest: 'abc' }),
  ...limits('learning_run', { model_version: '' }),
  learned_stage_no_positive: copyOf('learned_stage', { ...OTHER, stage_no: 0 }),
  learned_stage_stage_known: known('learned_stage', 'stage'),
  learned_stage_season_known: known('learned_stage', 'season'),
  learned_stage_animals_not_negative: copyOf('learned_stage', { ...OTHER, animals: -1 }),
  learned_stage_lean_is_a_share: copyOf('learned_stage', { ...OTHER, lean: 1.01 }),
  learned_stage_has_days: copyOf('learned_stage', { ...OTHER, days: 1537, ...chances(1537) }),
  learned_stage_hazards_have_its_days: copyOf('learned_stage', { ...OTHER, passes: nights(2) }),
  learned_stage_curves_of_one_length: copyOf('learned_stage', { ...OTHER, at_risk: nights(2) }),
  learned_stage_stretch_positive: copyOf('learned_stage', { ...OTHER, stretch_low: 1.3 }),
  learned_stage_odds_positive: copyOf('learned_stage', { ...OTHER, early_odds: 0 }),
  learned_stage_opens_not_before_entry: copyOf('learned_stage', { ...OTHER, opens_after: -1 }),
  learned_stage_names_plans: copyOf('learned_stage', { ...OTHER, plan_ids: [] }),
  learned_arrivals_counted: copyOf('learned_arrivals', { ...FALCONS, refused: 4 }),
  learned_arrivals_numbers_positive: copyOf('learned_arrivals', { ...FALCONS, level_low: 1.1 }),
  learned_arrivals_days_of_eight_bytes: copyOf('learned_arrivals', { ...FALCONS, events_per_day: '\\x00' }),
  learned_arrivals_some_size: copyOf('learned_arrivals', { ...FALCONS, sizes_young: [] }),
  learned_doubt_days_of_eight_bytes: copyOf('learned_doubt', { size: 2, variance: '\\x00' }),
  backtest_ends_once: copyOf('backtest', { ...ENDED, finished_at: '2026-06-10T13:00Z' }),
  backtest_ends_after_it_began: copyOf('backtest', { finished_at: '2026-06-10T11:00Z' }),
  backtest_counts_not_negative: copyOf('backtest', { ...ENDED, revision: -1 }),
  backtest_history_is_over: copyOf('backtest', { ...ENDED, history_from: '2026-06-10' }),
  backtest_judges_days_that_are_over: copyOf('backtest', { ...ENDED, origins: ['2026-06-08', '2026-06-10'] }),
  ...limits('backtest', { ...ENDED, model_version: '' }),
  backtest_one_open: copyOf('backtest', { id: 2 }),
  backtest_origin_judges_its_day: copyOf('backtest_origin', { origin: '2026-06-07' }),
}
