/**
 * From what is known of animals that are taken in to what is written: each stage with the centre it is expected at,
 * each check with the day it is expected.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { type Admission, listGivenReferences, readGiven } from '#lib/db/admission.ts'
import type { EntryTx } from '#lib/db/entry.ts'
import type { CallFacts } from '#lib/domain/call-facts.ts'
import { checksOf } from '#lib/domain/care-plan-check.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import { aloneKey } from '#lib/domain/need.ts'
import {
  firstFree,
  nextReference,
  REFERENCE_KEPT_DAYS,
  TWO_DIGITS_GIVEN_MAX,
  tryReference,
} from '#lib/domain/reference-word.ts'
import type { Random } from '#lib/kernel/random.ts'
import { type CallAnimals, ON_THE_PHONE } from '#lib/plan/newcomers.ts'
import { choiceWords } from '#lib/words/condition.ts'

/** Where a stage is expected to be spent and from which day; null where nothing is known of it. */
export type StopExpected = { readonly centreId: number | null; readonly from: DayNumber | null }

export type Admitting = {
  readonly callId: number | null
  readonly facts: CallFacts
  readonly animals: CallAnimals
  /** One a stage. */
  readonly stops: readonly StopExpected[]
  readonly today: DayNumber
  /** For how long a finder's name and number are kept. */
  readonly finderDays: number
  readonly references: readonly string[]
  readonly at: Date
}

type Taking = Grant<'option.take' | 'casualty.record'>

/** Of two digits at most every other is out: among so many hardly ever all. */
const TRIES_EACH = 8

/** So many references that nobody has had for two years, each another. */
export async function newReferences(
  _grant: Taking,
  { tx }: EntryTx,
  { count, today, random }: { readonly count: number; readonly today: DayNumber; readonly random: Random },
): Promise<string[]> {
  const after = today - REFERENCE_KEPT_DAYS
  const tries = Array.from({ length: count * TRIES_EACH }, () => tryReference(random))
  const { ofTried, twoDigits } = await readGiven(tx, after, {
    tried: tries.flatMap(({ short, long }) => [short, long]),
    limit: TWO_DIGITS_GIVEN_MAX,
  })
  const references = firstFree(count, tries, { ofTried: new Set(ofTried), twoDigits })
  if (references.length === count) return references
  const given = await listGivenReferences(tx, after)
  while (references.length < count) references.push(nextReference([...given, ...references], random))
  return references
}

/** Everything that an admission records. */
export function admissionOf(
  _grant: Taking,
  { callId, facts, animals, stops, today, finderDays, references, at }: Admitting,
): Admission {
  const hasFinder = facts.finderName !== '' || facts.finderPhone !== ''
  return {
    at,
    today,
    callId,
    foundWords: facts.whereTyped,
    where: facts.where,
    finder: hasFinder
      ? {
          name: facts.finderName,
          phone: facts.finderPhone,
          expiresOn: today + finderDays,
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
    stages: animals.plan.stages.map((stage, nth) => ({
      stage,
      housing: animals.needs[nth]?.housing ?? [stage.housing],
      centreId: stops[nth]?.centreId ?? null,
    })),
    checks: animals.plan.stages.flatMap((stage, nth) =>
      checksOf(animals.plan.gates, stage.stage, {
        admittedOn: today,
        stageBeganOn: stops[nth]?.from ?? today,
        operatedOn: null,
      }).map(check => ({ ...check, stageNo: nth + 1 })),
    ),
  }
}

/** In isolation the company is the arrival; whether it must be alone shows at any other stage. */
function isAloneLater({ needs }: CallAnimals): boolean {
  return needs.some(need => need.companyKey === aloneKey(ON_THE_PHONE))
}
