/**
 * The overwintering branch: an animal too light to be out in winter gets the stage that keeps it until spring.
 * Promise: a new version of its plan with the stage of the reference, its date gate and its checks; nothing else
 * changes. Whether it is overwintered is said by a person.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { createChecks, createPlanVersion, getAnimal, listPlannedStages, lockCasualty } from '#lib/db/stage.ts'
import { checksOf } from '#lib/domain/care-plan-check.ts'
import { planGroupsOf } from '#lib/domain/care-plan-choice.ts'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import type { Age } from '#lib/domain/species.ts'
import { speciesOf, type Trade } from '#lib/domain/trade.ts'
import { expectedStarts } from '#lib/forecast/expected-starts.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { OVERWINTER } from '#lib/words/season.ts'
import { momentOf, type Recorded, record } from './about-casualty.ts'
import { readTrade } from './network.ts'

/** Adds the stage to its plan. Failure 'rule' where the reference has none for its kind, or its plan has one. */
export async function planOverwinter(actor: Actor, casualtyId: number, now: Date): Promise<Recorded> {
  const [moment, trade] = await Promise.all([momentOf(now), readTrade()])
  const about = {
    permission: 'casualty.revise',
    casualtyId,
    action: 'overwintering planned',
    columns: ['estimate'],
  } as const
  return record(actor, about, now, async entry => {
    await lockCasualty(entry, casualtyId)
    const animal = await getAnimal(entry, casualtyId)
    const found = overwinteringFor(trade, animal)
    if (found === undefined) throw new Failure('rule', { rule: 'no-overwintering-for-its-kind' })
    const before = await listPlannedStages(entry, casualtyId)
    if (before.some(({ estimate }) => estimate.stage === 'overwintering')) {
      throw new Failure('rule', { rule: 'overwintering-planned-already' })
    }
    const no = Math.max(0, ...before.map(stage => stage.no)) + 1
    await createPlanVersion(entry, casualtyId, OVERWINTER.because, [], { ...found.stage, no })
    const today: DayNumber = dayOfInstant(now, moment.zone)
    const stages = [...before, { no, estimate: found.stage.estimate, beganAt: null }].map(stage => ({
      ...stage,
      beganOn: stage.beganAt === null ? null : dayOfInstant(stage.beganAt, moment.zone),
    }))
    const stageBeganOn = expectedStarts(stages, today).get(no) ?? today
    const admittedOn = dayOfInstant(animal.arrivedAt, moment.zone)
    const checks = checksOf(found.gates, 'overwintering', { admittedOn, stageBeganOn, operatedOn: null })
    await createChecks(entry, casualtyId, no, checks)
  })
}

function overwinteringFor(trade: Trade, animal: { readonly species: string; readonly age: Age }) {
  const { slug, group_slug, class: animalClass } = speciesOf(trade, animal.species)
  const chain = planGroupsOf(
    { species: slug, group: group_slug, class: animalClass, age: animal.age },
    trade.planGroups,
  )
  for (const group of chain) {
    for (const plan of trade.plans) {
      const stage = plan.stages.find(one => one.stage === 'overwintering')
      if (plan.planGroup === group && stage !== undefined) return { stage, gates: plan.gates }
    }
  }
  return undefined
}
