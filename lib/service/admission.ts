/**
 * From an option that was taken to what is written: each stage with the centre it is expected at, each check with the
 * day it is expected.
 */
import type { Grant } from '#lib/authz/demand.ts'
import type { Admission } from '#lib/db/admission.ts'
import type { Call } from '#lib/db/call.ts'
import { checksOf } from '#lib/domain/care-plan-check.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import { aloneKey } from '#lib/domain/need.ts'
import type { PlacementOption } from '#lib/domain/option.ts'
import { type CallAnimals, ON_THE_PHONE } from '#lib/plan/newcomers.ts'
import { choiceWords } from '#lib/words/condition.ts'
import type { Tonight } from './network.ts'

export type Admitting = {
  readonly call: Call
  readonly animals: CallAnimals
  readonly option: PlacementOption
  readonly tonight: Tonight
  readonly references: readonly string[]
  readonly now: Date
}

/** Everything that an admission by this option records. */
export function admissionOf(
  _grant: Grant<'option.take'>,
  { call, animals, option, tonight, references, now }: Admitting,
): Admission {
  const { facts } = call
  const { today } = tonight
  const hasFinder = facts.finderName !== '' || facts.finderPhone !== ''
  return {
    at: now,
    today,
    callId: call.id,
    foundWords: facts.whereTyped,
    where: facts.where,
    finder: hasFinder
      ? {
          name: facts.finderName,
          phone: facts.finderPhone,
          expiresOn: today + tonight.state.policy.finder_days,
        }
      : null,
    references,
    species: animals.species.slug,
    company: animals.species.company_slug,
    age: facts.age,
    isAlone: animals.needs[0]?.companyKey === aloneKey(ON_THE_PHONE) || isAloneLater(animals),
    isBatch: facts.count > 1,
    isDiseaseSuspect: animals.notifiable.state === 'suspected',
    leave:
      facts.authorityLeave === null
        ? null
        : { at: new Date(facts.authorityLeave.at), words: facts.authorityLeave.words },
    findings: facts.conditions.map(({ slug, severity }) => ({ condition: slug, severity })),
    planIds: animals.plan.planIds,
    because: animals.choices.map(choice => `${choice.condition}: ${choiceWords(choice.because)}`).join('; '),
    stages: animals.plan.stages.map((stage, at) => ({
      stage,
      housing: animals.needs[at]?.housing ?? [stage.housing],
      centreId: centreOf(option, at),
    })),
    checks: animals.plan.stages.flatMap((stage, at) =>
      checksOf(animals.plan.gates, stage.stage, {
        admittedOn: today,
        stageBeganOn: expectedFrom(option, at, today),
        operatedOn: null,
      }).map(check => ({ ...check, stageNo: at + 1 })),
    ),
  }
}

/** In isolation the company is the arrival; whether it must be alone shows at any other stage. */
function isAloneLater({ needs }: CallAnimals): boolean {
  return needs.some(need => need.companyKey === aloneKey(ON_THE_PHONE))
}

function centreOf(option: PlacementOption, at: number): number | null {
  const stop = option.path[at]
  return stop === undefined ? null : Number(stop.centre.id)
}

function expectedFrom(option: PlacementOption, at: number, today: DayNumber): DayNumber {
  return option.path[at]?.from.q50 ?? today
}
