import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { learn } from '#lib/service/learn.ts'
import { readRecord, readRecords } from '#lib/service/records.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { beginStage, LEARNING_PLAN, sayReady } from '#tests/support/learning-world.ts'

const PLAN = 'cat.any-bird.any.none'
const person = (role: 'manager' | 'vet'): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'A',
  roles: role === 'vet' ? [{ role, practiceId: 1 }] : [{ role }],
})
const manager = person('manager')
const days = (n: number) => hours(24 * n)

beforeAll(async () => {
  const client = await database.pool.connect()
  await makeWorld(client)
  await client.query(LEARNING_PLAN)
  for (const animal of [1, 2, 3]) await beginStage(client, animal, days(-20 - animal))
  await sayReady(client, 1, days(-14))
  client.release()
})

describe('what records say of stages', () => {
  it('is nothing before the first learning, and for a vet not to be read', async () => {
    expect(await readRecords(manager)).toBeUndefined()
    await expect(readRecord(manager, `${PLAN}|1`)).rejects.toMatchObject({ code: 'not-found' })
    await expect(readRecords(person('vet'))).rejects.toMatchObject({ code: 'forbidden' })
  })

  it('tells stages with records of their own from those without, by condition', async () => {
    const id = await learn(NOON)
    const shown = await readRecords(manager)
    expect(shown?.run).toMatchObject({ id, animals: 3 })
    expect(shown?.own.map(({ condition, stages }) => [condition, stages.map(({ key }) => key)])).toEqual([
      ['Cat', [`${PLAN}|1`]],
    ])
    expect(shown?.others.map(({ season }) => season)).toEqual(['autumn', 'spring', 'summer', 'winter'])
    expect(shown?.others.every(({ plans }) => plans[0]?.planGroup === 'any-bird')).toBe(true)
  })

  it('shows one in full: its curve beside the plan’s, the animals at risk, where the figures come from', async () => {
    const { said, curve, marks } = await readRecord(manager, `${PLAN}|1`)
    expect(said).toMatchObject({ animals: 3, conditions: ['Cat'], season: null, earlier: null })
    expect(marks).not.toBeNull()
    expect(curve.atRisk[0]).toBe(3)
    expect(curve.learned.length).toBe(curve.plan.length)
    // Three animals that stayed long: later than the plan on every day that was watched.
    for (let d = 4; d < 12; d++) expect(curve.learned[d]).toBeGreaterThan(curve.plan[d]!)
    for (const [d, low] of curve.low.entries()) expect(low).toBeLessThanOrEqual(curve.high[d]!)
  })

  it('has no marks once setup says something else of the stage', async () => {
    await database.pool.query(`update care_plan_stage set ready_p90_days = 15 where stage_no = 1`)
    await database.pool.query('update network set knowledge_revision = knowledge_revision + 1')
    expect((await readRecord(manager, `${PLAN}|1`)).marks).toBeNull()
  })
})
