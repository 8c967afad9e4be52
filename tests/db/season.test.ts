import { beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listWeights } from '#lib/db/casualty-happened.ts'
import { listCentreDue } from '#lib/db/due.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { planOverwinter } from '#lib/service/overwinter.ts'
import { recordCheck, recordWeight, recordWeightAnswer } from '#lib/service/record-stay.ts'
import { database } from '#tests/support/database.ts'
import { makeWorld, record } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const { pool } = database
const ANIMAL = 20
const coordinator = {
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [{ role: 'coordinator' }],
} as const
const system = demand(systemActor('test'), 'system.run') as never
const OCTOBER = new Date('2026-10-31T12:00:00Z')
const NOVEMBER = new Date('2026-11-01T12:00:00Z')

const one = async (text: string, values: unknown[] = []) => (await pool.query(text, values)).rows[0]
const thrownBy = (work: Promise<unknown>) =>
  work.then(
    () => undefined,
    (thrown: unknown) => thrown,
  )
const owed = async (now: Date) =>
  (await listCentreDue(system, [1], now)).flatMap(({ about }) => (about.kind === 'overwinter' ? [about] : []))

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  await client.query(`
    insert into species_season (species_slug, kind, opens, closes, grams, mark)
    values ('blackbird', 'hibernation', '11-01', '03-20', 600, 'M');
    insert into care_plan values ('winter', 'wing-fracture', 'any-bird', 'severe', 'none');
    insert into care_plan_stage (plan_id, stage_no, stage, housing_type, gate_opens, gate_closes, gate_min_days,
      gate_lag_median_days, gate_lag_p90_days, died_median_days, died_p90_days, goes_on_means, goes_on, died, euthanased, left_care,
      mark_durations)
    values ('winter', 1, 'overwintering', 'indoor-pen', '03-20', '05-31', 10, 13, 35, 50, 120, 'released', 0.8, 0.1, 0.05, 0.05, 'R:S5;CP');
    insert into care_plan_gate (plan_id, stage, check_slug, what, interval_days, anchor, required_for, who, mark)
    values ('winter', 'overwintering', 'release-weight', 'at the weight', 7, 'stage start', 'release', 'carer', 'M')`)
  await record(
    client,
    { casualty_id: ANIMAL, since: new Date('2026-10-20T08:00:00Z'), keeper: 'centre', enclosure_id: 2 },
    OCTOBER,
  )
  await client.query(
    `with p as (insert into casualty_plan (entry_id, casualty_id, version_no, plan_ids, because)
       values (1, $1, 1, '{p1}', 'x') returning id)
     insert into casualty_stage (casualty_plan_id, stage_no, stage, housing_type, estimate, marks)
     select id, 1, 'restricted activity', 'hospital-cage', $2, '{"lengths":"CP"}' from p`,
    [
      ANIMAL,
      JSON.stringify({
        stage: 'restricted activity',
        ready: { kind: 'length', length: { medianDays: 20, p90Days: 40 } },
        shares: { onward: 0.9, died: 0.05, euthanased: 0.04, left: 0.01 },
        died: { medianDays: 2, p90Days: 31 },
        euthanased: { medianDays: 2, p90Days: 31 },
      }),
    ],
  )
  client.release()
})

describe('the overwintering branch', () => {
  it('is owed from 1 November on, by whoever weighs too little', async () => {
    await recordWeight(coordinator, ANIMAL, { grams: '420', at: new Date('2026-10-30T08:00Z') }, OCTOBER)
    expect(await owed(OCTOBER)).toEqual([])
    expect(await owed(NOVEMBER)).toMatchObject([{ references: ['test 20'], grams: 420, wanted: 600 }])
    await recordWeight(coordinator, ANIMAL, { grams: '640' }, NOVEMBER)
    expect(await owed(NOVEMBER)).toEqual([])
  })

  it('is asked again once a wrong weight is taken back, which stays readable', async () => {
    const { id } = await one('select max(id) as id from weight where casualty_id = $1', [ANIMAL])
    await recordWeightAnswer(coordinator, ANIMAL, { weightId: id, isSure: 'no' }, NOVEMBER)
    expect(await owed(NOVEMBER)).toHaveLength(1)
    expect(
      (await listWeights(system, ANIMAL)).map(({ grams, isTakenBack }) => ({ grams, isTakenBack })),
    ).toEqual([
      { grams: 420, isTakenBack: false },
      { grams: 640, isTakenBack: true },
    ])
    const again = await thrownBy(
      recordWeightAnswer(coordinator, ANIMAL, { weightId: id, isSure: 'yes' }, NOVEMBER),
    )
    expect(isFailure(again) && again.code).toBe('conflict')
  })

  it('adds the stage of the reference with its date gate and checks beside the old plan, once', async () => {
    await planOverwinter(coordinator, ANIMAL, NOVEMBER)
    const stage = await one(
      `select s.stage_no, s.stage, s.estimate -> 'ready' ->> 'opens' as opens, s.marks ->> 'lengths' as mark, p.version_no
         from casualty_plan p join casualty_stage s on s.casualty_plan_id = p.id
        where p.casualty_id = $1 order by p.version_no desc, s.stage_no desc limit 1`,
      [ANIMAL],
    )
    expect(stage).toEqual({
      stage_no: 2,
      stage: 'overwintering',
      opens: '03-20',
      mark: 'R:S5;CP',
      version_no: 2,
    })
    expect(
      await one('select check_slug, required_for from check_due where casualty_id = $1', [ANIMAL]),
    ).toEqual({ check_slug: 'release-weight', required_for: 'release' })
    expect(await owed(NOVEMBER)).toEqual([])
    const again = await thrownBy(planOverwinter(coordinator, ANIMAL, NOVEMBER))
    expect(isFailure(again) && again.rule).toBe('overwintering-planned-already')
  })

  it('keeps its date when a check of it is not passed: what is longer is only the least time', async () => {
    const { id } = await one('select id from check_due where casualty_id = $1', [ANIMAL])
    await recordCheck(coordinator, id, { found: 'below the weight', moreDays: 21 }, NOVEMBER)
    expect(
      await one(
        `select s.estimate -> 'ready' as ready from casualty_plan p join casualty_stage s on s.casualty_plan_id = p.id
          where p.casualty_id = $1 and s.stage_no = 2 order by p.version_no desc limit 1`,
        [ANIMAL],
      ),
    ).toMatchObject({ ready: { kind: 'date gate', opens: '03-20', closes: '05-31', minDays: 21 } })
  })
})
