/** A learning with one stage, for the pages that show one; it moves no revision, so that no forecast takes it. */
import type { Records } from './pages.ts'

const KEY = 'nobody.any-bird.any.none|1'
/** Eight bytes of a number each, lowest first: 1, 0.75, 0.5, 0.25, 0. */
const NUMBERS = [
  '000000000000f03f',
  '000000000000e83f',
  '000000000000e03f',
  '000000000000d03f',
  '0000000000000000',
]
const FALLING = `decode('${NUMBERS.join('')}', 'hex')`

/** The address of a stage that was learned, the first of the newest learning. */
export async function learnedStage(records: Records): Promise<string> {
  const found = () =>
    records<{ key: string }>(
      'select key from learned_stage where run_id = (select max(id) from learning_run) order by animals desc, key limit 1',
    )
  const [known] = await found()
  if (known === undefined)
    await records(`
    with run as (
      insert into learning_run (model_version, as_of, learned_at, revision, knowledge_revision, plan_weight, seed, cells, animals,
          inputs_digest, digest)
        values ('test', '2026-11-25', now(), 1, 1, 20, 1, 1, 9, repeat('0', 64), repeat('0', 64)) returning id)
    insert into learned_stage (run_id, key, plan_ids, stage_no, stage, condition, estimate, days, animals, stretch_mean, stretch_low,
        stretch_high, early_odds, lean, died, euthanased, left_care, passes, beyond, opens_after, curve_plan, curve_learned, curve_low,
        curve_high, at_risk)
      select run.id, '${KEY}', array['nobody.any-bird.any.none'], 1, 'restricted activity', 'nobody',
        '{"stage": "restricted activity", "ready": {"kind": "length", "length": {"medianDays": 2, "p90Days": 4}},
          "shares": {"onward": 1, "died": 0, "euthanased": 0, "left": 0}, "died": {"medianDays": 2, "p90Days": 31},
          "euthanased": {"medianDays": 2, "p90Days": 31}}', 5, 9, 1.4, 1.2, 1.7, 1, 0.2, ${FALLING}, ${FALLING}, ${FALLING}, ${FALLING},
        '{"onward": 1, "died": 0, "euthanased": 0, "left": 0}', 0, ${FALLING}, ${FALLING}, ${FALLING}, ${FALLING}, ${FALLING} from run`)
  return `/records/${encodeURIComponent(known?.key ?? KEY)}`
}
