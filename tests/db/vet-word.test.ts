/**
 * A vet's "two more weeks" from its record to the forecast: the newest said of the stage counts, until somebody gives the
 * stage another length or takes the word back; nobody else's forecast and nothing that is learned reads it.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listStageRecords } from '#lib/db/stage-record.ts'
import { listStageRuns } from '#lib/db/stage-run.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { readCasualty } from '#lib/service/casualty.ts'
import { readState } from '#lib/service/network.ts'
import { recordArrived, recordOutcome } from '#lib/service/record.ts'
import { recordReady, recordStageMoved, reviseExpectation } from '#lib/service/record-stay.ts'
import { recordVetWord, takeBackVetWord } from '#lib/service/vet-word.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { givePlans, PEOPLE_AND_POLICY } from '#tests/support/stay-world.ts'

const { pool } = database
const SOUTH = 2
const DAY = 24
const desk: PersonActor = { kind: 'person', personId: 1, name: 'One', roles: [{ role: 'coordinator' }] }
const system = demand(systemActor('test'), 'system.run')
const days = (count: number) => hours(count * DAY)

/** Each for one story. */
const [NEWEST, BACK, REVISED, NEXT, GONE, ALONE, LEARNED] = [13, 18, 23, 28, 33, 15, 20] as const

const word = (change: Readonly<Record<string, unknown>> = {}) => ({
  stageNo: 1,
  longer: 2,
  unit: 'weeks',
  saidBy: 'Dr Thessaly',
  ...change,
})
const say = async (animal: number, change: Readonly<Record<string, unknown>>, now: Date) =>
  (await recordVetWord(desk, animal, word(change), now)).made
const counted = async (animal: number, now: Date) => {
  const resident = (await readState(now)).state.residents.find(({ id }) => id === animal)
  return resident?.word ?? null
}
const card = (animal: number, now: Date) => readCasualty(desk, `test ${animal}`, {}, now)
const refusalOf = async (work: Promise<unknown>) => {
  const thrown = await work.catch((error: unknown) => error)
  return isFailure(thrown) ? [thrown.code, thrown.rule ?? thrown.field] : undefined
}

beforeAll(async () => {
  const client = await pool.connect()
  await makeWorld(client)
  await client.query(PEOPLE_AND_POLICY)
  const animals = [NEWEST, BACK, REVISED, NEXT, GONE, ALONE, LEARNED]
  await givePlans(client, animals, 2)
  await client.query('update entry set revision = 0 where revision is null')
  client.release()
  for (const animal of animals) {
    await recordArrived(desk, animal, { centreId: SOUTH, since: days(-9) }, days(-9))
    await recordStageMoved(desk, animal, { stageNo: 1, at: days(-8) }, days(-8))
  }
})

describe('a word', () => {
  it('counts from when it was said; the newest said counts, whenever it was entered', async () => {
    await say(NEWEST, { at: days(-3) }, days(-1))
    expect(await counted(NEWEST, NOON)).toEqual({ no: 1, at: days(-3), inDays: 14 })
    await say(NEWEST, { longer: 30, unit: 'days', at: days(-2) }, days(-1))
    await say(NEWEST, { longer: 5, at: days(-5) }, NOON)
    expect(await counted(NEWEST, NOON)).toEqual({ no: 1, at: days(-2), inDays: 30 })
    const shown = await card(NEWEST, NOON)
    expect(shown.vetWord).toMatchObject({ inDays: 30, saidBy: 'Dr Thessaly', counts: true })
    const said = shown.happened.filter(({ what }) => what.kind === 'vet-word')
    expect(said.map(({ at, enteredAt }) => [at, enteredAt])).toEqual([
      [days(-2), days(-1)],
      [days(-3), days(-1)],
      [days(-5), NOON],
    ])
  })

  it('is taken back once; the one before counts again, and its line stays readable', async () => {
    const first = await say(BACK, { at: days(-4) }, days(-4))
    const second = await say(BACK, { longer: 40, unit: 'days' }, days(-1))
    expect((await counted(BACK, NOON))?.inDays).toBe(40)
    await takeBackVetWord(desk, BACK, { wordId: second }, NOON)
    expect((await counted(BACK, NOON))?.inDays).toBe(14)
    expect(await refusalOf(takeBackVetWord(desk, BACK, { wordId: second }, NOON))).toEqual([
      'conflict',
      'vet_word_superseded_once',
    ])
    await takeBackVetWord(desk, BACK, { wordId: first }, NOON)
    expect(await counted(BACK, NOON)).toBeNull()
    const { vetWord, happened } = await card(BACK, NOON)
    expect(vetWord).toBeUndefined()
    const said = happened.filter(({ what }) => what.kind === 'vet-word')
    expect(said.map(({ state }) => state)).toEqual(['taken back', 'taken back'])
  })

  it('of another animal is not found, and a stage its plan does not have is named', async () => {
    const id = await say(ALONE, {}, days(-1))
    expect(await refusalOf(takeBackVetWord(desk, BACK, { wordId: id }, NOON))).toEqual([
      'not-found',
      undefined,
    ])
    expect(await refusalOf(say(ALONE, { stageNo: 9 }, NOON))).toEqual(['rule', 'stage-not-in-the-plan'])
    await takeBackVetWord(desk, ALONE, { wordId: id }, NOON)
  })

  it('speaks of the stage it names: none of the next, again of the first when that is all there is', async () => {
    await say(NEXT, { at: days(-3) }, days(-3))
    expect((await counted(NEXT, NOON))?.no).toBe(1)
    await recordStageMoved(desk, NEXT, { stageNo: 2, at: days(-1) }, days(-1))
    expect(await counted(NEXT, NOON)).toBeNull()
    expect((await card(NEXT, NOON)).vetWord).toBeUndefined()
    await say(NEXT, { stageNo: 2, longer: 3 }, NOON)
    expect(await counted(NEXT, NOON)).toEqual({ no: 2, at: NOON, inDays: 21 })
    await recordReady(desk, NEXT, { stageNo: 2 }, hours(1))
    expect((await card(NEXT, hours(1))).vetWord).toBeUndefined()
  })

  it('of an animal that has left is kept, and says that it was entered late', async () => {
    await recordOutcome(desk, GONE, { alive: 'alive', whereNow: 'in the wild', since: days(-1) }, NOON)
    await say(GONE, { at: days(-6) }, NOON)
    const { happened, vetWord } = await card(GONE, NOON)
    expect(happened.find(({ what }) => what.kind === 'vet-word')).toMatchObject({
      at: days(-6),
      enteredAt: NOON,
    })
    expect(vetWord).toMatchObject({ inDays: 14 })
    expect(await counted(GONE, NOON)).toBeNull()
  })
})

describe('expectations revised by a person', () => {
  const revise = (stageNo: number, medianDays: number, at: Date) =>
    reviseExpectation(
      desk,
      REVISED,
      { because: 'Looked at again', stages: [{ stageNo, medianDays, p90Days: 90 }] },
      at,
    )

  it('hold from then on, also over an older word that is entered later; a newer word holds over them', async () => {
    await say(REVISED, { at: days(-5) }, days(-5))
    await revise(2, 44, days(-4))
    expect((await counted(REVISED, NOON))?.inDays).toBe(14)
    await revise(1, 41, days(-3))
    expect(await counted(REVISED, NOON)).toBeNull()
    expect((await card(REVISED, NOON)).vetWord).toMatchObject({ inDays: 14, counts: false })
    await say(REVISED, { longer: 6, at: days(-4) }, days(-2))
    expect(await counted(REVISED, NOON)).toBeNull()
    await say(REVISED, { longer: 20, unit: 'days' }, days(-1))
    expect((await counted(REVISED, NOON))?.inDays).toBe(20)
  })

  it('and put back as they were do not bring a word back', async () => {
    await revise(1, 50, hours(1))
    await revise(1, 41, hours(2))
    expect(await counted(REVISED, hours(3))).toBeNull()
  })
})

describe('who else reads it', () => {
  it('the question whether it is still there has the same word', async () => {
    const grant = demand(desk, 'due.read', { centreIds: [SOUTH] })
    const run = (await listStageRuns(grant, [SOUTH])).find(({ casualtyId }) => casualtyId === NEWEST)
    expect(run?.word).toEqual({ at: days(-2), inDays: 30 })
    const other = (await listStageRuns(grant, [SOUTH])).find(({ casualtyId }) => casualtyId === BACK)
    expect(other?.word).toBeNull()
  })

  it('nothing that is learned: the record of the stay is the same, and ends as the stay does', async () => {
    const recordOf = async () =>
      (await listStageRecords(system, days(1))).filter(({ casualtyId }) => casualtyId === LEARNED)
    const before = await recordOf()
    expect(before).toHaveLength(1)
    await say(LEARNED, { longer: 700, unit: 'days' }, days(-2))
    expect(await recordOf()).toEqual(before)
    await recordStageMoved(desk, LEARNED, { stageNo: 2, at: days(-1) }, NOON)
    expect((await recordOf())[0]).toEqual({ ...before[0], nextAt: days(-1) })
  })
})

describe('the dates of its card', () => {
  const endOf = async (now: Date) => (await card(ALONE, now)).ahead?.stages[0]?.end.median

  it('move with the word, and back when it is taken back', async () => {
    const before = await endOf(NOON)
    const id = await say(ALONE, { longer: 8 }, NOON)
    const after = await endOf(NOON)
    expect(after).toBeGreaterThan((before ?? 0) + 7)
    await takeBackVetWord(desk, ALONE, { wordId: id }, NOON)
    expect(await endOf(NOON)).toBe(before)
  })
})
