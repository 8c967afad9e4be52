/** What is set up as figures: care plans with their checks, the year's arrivals, the policy. */
import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor, Role } from '#lib/authz/actor.ts'
import { addArrivals, changeArrivals, getArrivals } from '#lib/service/setup/arrivals.ts'
import { addPlan, getPlan, removePlanStage, savePlanGate, savePlanStage } from '#lib/service/setup/plan.ts'
import { changePolicy, changeWeights, getPolicy } from '#lib/service/setup/policy.ts'
import { database } from '#tests/support/database.ts'
import { makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'
import { fields, refusal } from '#tests/support/refusal.ts'
import { arrivalsTyped, policyTyped, stageTyped, weightsTyped } from '#tests/support/setup-forms.ts'

const { pool } = database
const as = (...roles: Role[]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: roles.map(role => ({ role })),
})
const administrator = as('administrator')
const coordinator = as('coordinator')

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

describe('a care plan', () => {
  const head = { condition: 'wing-fracture', planGroup: 'any-bird', severity: 'severe', treatment: 'none' }
  const id = 'wing-fracture.any-bird.severe.none'
  const version = async () => String((await getPlan(administrator, id)).version)
  const knowledge = async () => (await pool.query('select knowledge_revision as at from network')).rows[0].at

  it('gets its stages in the order of care, whatever order they come in', async () => {
    expect(await addPlan(administrator, head, NOON)).toBe(id)
    const later = { ...stageTyped, stage: 'limited activity', housing: 'sheltered-aviary' }
    const before = await knowledge()
    await savePlanStage(administrator, id, undefined, { ...later, version: await version() }, NOON)
    await savePlanStage(administrator, id, undefined, { ...stageTyped, version: await version() }, NOON)
    expect((await getPlan(coordinator, id)).stages.map(stage => stage.stage)).toEqual([
      'critical care',
      'limited activity',
    ])
    const { rows } = await pool.query(
      'select stage_no, goes_on_means from care_plan_stage where plan_id = $1 order by 1',
      [id],
    )
    expect(rows).toEqual([
      { stage_no: 1, goes_on_means: 'next stage' },
      { stage_no: 2, goes_on_means: 'released' },
    ])
    expect(await knowledge()).toBeGreaterThan(before)
    const twice = savePlanStage(administrator, id, undefined, { ...later, version: await version() }, NOON)
    expect(await refusal(twice)).toBe('rule stage-there-already')
  })

  it('marks a changed number as ours and leaves the others', async () => {
    const changed = { ...stageTyped, medianDays: '3', version: await version() }
    await savePlanStage(administrator, id, 'critical care', changed, NOON)
    expect((await getPlan(administrator, id)).stages[0]).toMatchObject({
      medianDays: 3,
      lengthsMark: 'ours',
      sharesMark: 'D',
    })
  })

  it('keeps a stage that checks belong to', async () => {
    const gate = {
      stage: 'critical care',
      check: 'weigh',
      what: 'weight',
      intervalDays: '3',
      anchor: 'stage start',
      who: 'carer',
      mark: '',
    }
    await savePlanGate(administrator, id, undefined, { ...gate, version: await version() }, NOON)
    const { gates } = await getPlan(administrator, id)
    expect(gates).toMatchObject([{ check: 'weigh', mark: 'ours', requiredFor: null }])
    const stray = { ...gate, stage: 'quarantine', version: await version() }
    expect(await refusal(savePlanGate(administrator, id, undefined, stray, NOON))).toBe(
      'rule gate-without-stage',
    )
    const out = async (stage: 'critical care' | 'limited activity') =>
      refusal(removePlanStage(administrator, id, stage, { version: await version() }, NOON))
    expect(await out('critical care')).toBe('rule stage-has-gates')
    expect(await out('limited activity')).toBe('nothing')
    expect((await getPlan(administrator, id)).stages).toHaveLength(1)
  })

  it('is not changed by a manager', async () => {
    expect(await refusal(savePlanStage(as('manager'), id, undefined, stageTyped, NOON))).toBe('forbidden')
  })
})

describe("the year's arrivals", () => {
  const key = { centreId: 2, group: 'small-birds' }

  it('are read from per cent, and a line stands once', async () => {
    expect(await addArrivals(as('manager'), arrivalsTyped, NOON)).toEqual(key)
    const { monthShares, eventSizes } = await getArrivals(coordinator, key)
    expect(monthShares[4]).toBeCloseTo(0.2, 12)
    expect(eventSizes).toEqual([0.8, 0, 0.2])
    expect(await refusal(addArrivals(administrator, arrivalsTyped, NOON))).toBe('rule arrivals-there-already')
  })

  it('are ours once a figure changed', async () => {
    await changeArrivals(as('manager'), key, { ...arrivalsTyped, version: '1' }, NOON)
    expect((await getArrivals(coordinator, key)).mark).toBe('R:S22')
    await changeArrivals(as('manager'), key, { ...arrivalsTyped, animalsPerYear: '130', version: '2' }, NOON)
    expect(await getArrivals(coordinator, key)).toMatchObject({
      animalsPerYear: 130,
      mark: 'ours',
      version: 3,
    })
    const off = { ...arrivalsTyped, eventSizes: ['80'], version: '3' }
    expect(await fields(changeArrivals(as('manager'), key, off, NOON))).toEqual([
      'eventSizes: shares-do-not-sum',
    ])
  })
})

describe('the policy', () => {
  const weights = async () => (await pool.query('select kappa, omega, version from policy')).rows

  it('brings the two weights of another preset, and leaves those that an administrator set', async () => {
    await changePolicy(as('manager'), { ...policyTyped, version: '1' }, NOON)
    expect(await getPolicy(coordinator)).toMatchObject({ preset: 'proper-place-first', tightChance: 0.15 })
    expect(await weights()).toEqual([{ kappa: 0.3, omega: 6, version: 2 }])
    expect(await refusal(changePolicy(coordinator, policyTyped, NOON))).toBe('forbidden')
    await changeWeights(administrator, { ...weightsTyped, version: '2' }, NOON)
    await changePolicy(as('manager'), { ...policyTyped, tightChance: '20', version: '3' }, NOON)
    expect(await weights()).toEqual([{ kappa: 0.35, omega: 5, version: 4 }])
    await changePolicy(as('manager'), { ...policyTyped, preset: 'balanced', version: '4' }, NOON)
    expect(await weights()).toEqual([{ kappa: 0.4, omega: 4, version: 5 }])
  })

  it('has weights that only an administrator changes, within their limits and over what was read', async () => {
    expect(await refusal(changeWeights(as('manager'), { ...weightsTyped, version: '5' }, NOON))).toBe(
      'forbidden',
    )
    expect(
      await fields(changeWeights(administrator, { ...weightsTyped, kappa: '1.1', version: '5' }, NOON)),
    ).toEqual(['kappa: too-big'])
    expect(await refusal(changeWeights(administrator, { ...weightsTyped, version: '1' }, NOON))).toBe(
      'conflict',
    )
  })
})
