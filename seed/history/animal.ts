/** Which animal comes in a month, what is wrong with it, and the plan that a carer would have given it. */
import { type Finding, planFor, severitiesOf } from '#lib/domain/care-plan-choice.ts'
import type { CombinedPlan } from '#lib/domain/care-plan-combination.ts'
import type { SpeciesKnowledge } from '#lib/domain/knowledge.ts'
import { mustBeAlone } from '#lib/domain/need.ts'
import { groupOf, type Trade } from '#lib/domain/trade.ts'
import type { Random } from '#lib/kernel/random.ts'
import { abundanceOf } from './abundance.ts'
import { drawOne } from './draw.ts'
import type { Animal, FoundIn } from './types.ts'

/** Reasons that only young have. */
const OF_YOUNG = ['orphan-young', 'displaced-fledgling']
/** Never part of this history: seen outside and reported, or left where they are. */
const NOT_TAKEN_IN = ['notifiable-suspect', 'young-waiting', 'confiscated']
/** First and last month of reasons that have a season; common practice, ours. */
const SEASONS: Readonly<Record<string, readonly [number, number]>> = {
  'underweight-autumn': [9, 12],
  flystrike: [5, 9],
  botulism: [7, 10],
  'strike-mower': [4, 10],
  'storm-blown': [9, 3],
  grounded: [1, 12],
}
const REASON_WEIGHTS = [5, 3, 2, 1.5, 1]
const ANY_REASON_WEIGHT = 1.5
const YOUNG_IN_SEASON = 0.62
const ORPHAN_AMONG_YOUNG = 0.7
const OPERATED = 0.6

export type Patient = {
  readonly animal: Animal
  readonly findings: readonly FoundIn[]
  readonly plan: CombinedPlan
}

/** Whether a month lies between two months, over the turn of the year where the second is the smaller. */
export function isInSeason(month: number, [from, to]: readonly [number, number]): boolean {
  return from <= to ? from <= month && month <= to : month >= from || month <= to
}

function isYoungMonth(species: SpeciesKnowledge, month: number): boolean {
  const { young_from_month: from, young_to_month: to } = species
  return from !== null && to !== null && isInSeason(month, [from, to])
}

/** A species of the group that is about in this month; a litter only of one that has young. */
export function drawSpecies(
  random: Random,
  trade: Trade,
  group: string,
  month: number,
  isLitter: boolean,
): SpeciesKnowledge {
  const all = trade.species.filter(
    one => one.group_slug === group && !one.is_stand_in && abundanceOf(one.slug) > 0,
  )
  const fitting = isLitter ? all.filter(one => isYoungMonth(one, month)) : all
  return drawOne(
    random,
    (fitting.length > 0 ? fitting : all).map(one => [
      one,
      abundanceOf(one.slug) * (isYoungMonth(one, month) ? 1.5 : 1),
    ]),
  )
}

/** One animal of the species, or the pattern of all in its litter. */
export function drawPatient(
  random: Random,
  trade: Trade,
  species: SpeciesKnowledge,
  month: number,
  isLitter: boolean,
): Patient {
  const isYoung = isYoungMonth(species, month) && (isLitter || random() < YOUNG_IN_SEASON)
  const condition = drawCondition(random, species, month, isYoung, isLitter)
  return patientOf(trade, species, isYoung, month, finding => {
    const severities = severitiesOf(trade, finding, condition)
    const severity = drawOne(
      random,
      (severities.length > 0 ? severities : (['any'] as const)).map(one => [one, one === 'severe' ? 0.5 : 1]),
    )
    return { condition, severity, isUsuallyOperated: random() < OPERATED }
  })
}

/** The patient for given findings; what drawPatient and the story share. */
export function patientOf(
  trade: Trade,
  species: SpeciesKnowledge,
  isYoung: boolean,
  month: number,
  find: (animal: Animal) => Finding,
): Patient {
  const group = groupOf(trade, species.group_slug)
  const animal: Animal = {
    species: species.slug,
    group: group.slug,
    class: species.class,
    age: isYoung ? 'young' : 'adult',
    company: species.company_slug,
    preys: species.preys,
    isAlone: mustBeAlone({ species, age: isYoung ? 'young' : 'adult', month }),
  }
  const finding = find(animal)
  const { plan } = planFor(trade, animal, [finding])
  return {
    animal,
    findings: [{ condition: finding.condition, severity: finding.severity ?? 'any' }],
    plan,
  }
}

function drawCondition(
  random: Random,
  species: SpeciesKnowledge,
  month: number,
  isYoung: boolean,
  isLitter: boolean,
): string {
  if (isLitter || (isYoung && random() < ORPHAN_AMONG_YOUNG)) return 'orphan-young'
  const reasons = species.main_reasons
    .map((reason, at) => [reason, REASON_WEIGHTS[at] ?? 1] as const)
    .filter(([reason]) => !NOT_TAKEN_IN.includes(reason))
    .filter(([reason]) => isYoung || !OF_YOUNG.includes(reason))
    .filter(([reason]) => {
      const season = SEASONS[reason]
      return season === undefined || isInSeason(month, season)
    })
  return drawOne(random, [...reasons, ['any-reason', ANY_REASON_WEIGHT] as const])
}
