/** The generated history as rows: casualties with what they are, what is wrong with them and their own plan. */
import { checksOf } from '#lib/domain/care-plan-check.ts'
import { dateOfDay, dayOfInstant } from '#lib/domain/day.ts'
import { housingFor } from '#lib/domain/need.ts'
import { REFERENCE_WORDS } from '#lib/domain/reference-word.ts'
import { groupOf, type Trade } from '#lib/domain/trade.ts'
import type { Random } from '#lib/kernel/random.ts'
import type { Row } from '../load/bulk.ts'
import { positionOf } from '../scenario/geography.ts'
import type { Casualty } from './types.ts'

/** Two digits are for the newest: what is in care now is said most often. */
const SHORT_REFERENCES = 1200

/** A reference for each of so many casualties, the oldest first, none twice. */
export function drawReferences(random: Random, count: number): string[] {
  const short = shuffled(random, listReferences(10, 100)).slice(0, Math.min(SHORT_REFERENCES, count))
  const long = shuffled(random, listReferences(100, 1000)).slice(0, count - short.length)
  return [...long, ...short]
}

function listReferences(from: number, until: number): string[] {
  return REFERENCE_WORDS.flatMap(word =>
    Array.from({ length: until - from }, (_, at) => `${word} ${from + at}`),
  )
}

function shuffled<T>(random: Random, list: readonly T[]): T[] {
  return list
    .map(one => [random(), one] as const)
    .sort((a, b) => a[0] - b[0])
    .map(([, one]) => one)
}

/** Arrivals, batches and casualties, in the order in which they came; batch numbers count over all. */
export function arrivalRows(
  casualties: readonly Casualty[],
  references: readonly string[],
  zone: string,
): [string, Row[]][] {
  const arrivals = new Map(casualties.map(one => [one.arrival.id, one.arrival]))
  const batches = new Map(
    casualties.flatMap(one => (one.batchNo === null ? [] : [[one.batchNo, one.arrival.id]])),
  )
  return [
    [
      'arrival',
      [...arrivals.values()].map(({ id, at, foundWords, spot }) => ({
        id,
        at: new Date(at).toISOString(),
        found_words: foundWords,
        ...positionOf(spot),
      })),
    ],
    ['batch', [...batches].map(([id, arrival_id]) => ({ id, arrival_id }))],
    [
      'casualty',
      casualties.map((one, at) => ({
        id: one.id,
        reference: references[at],
        given_on: dateOfDay(dayOfInstant(new Date(one.arrival.at), zone)),
        arrival_id: one.arrival.id,
        batch_id: one.batchNo,
        member_no: one.memberNo,
        species_slug: one.animal.species,
        age: one.animal.age,
        company_slug: one.animal.company,
        is_alone: one.animal.isAlone,
      })),
    ],
  ]
}

/** What is known of each casualty since its arrival, entered with it. */
export function knownRows(
  casualties: readonly Casualty[],
  entryOf: ReadonlyMap<number, number>,
  trade: Trade,
): [string, Row[]][] {
  const entry = ({ id }: Casualty) => entryOf.get(id)
  return [
    [
      'identification',
      casualties.map(one => ({
        entry_id: entry(one),
        casualty_id: one.id,
        species_slug: one.animal.species,
        age: one.animal.age,
      })),
    ],
    [
      'finding',
      casualties.flatMap(one =>
        one.findings.map(({ condition, severity }) => ({
          entry_id: entry(one),
          casualty_id: one.id,
          condition_slug: condition,
          severity,
          noted_at: new Date(one.arrival.at).toISOString(),
        })),
      ),
    ],
    [
      'casualty_plan',
      casualties.map(one => ({
        id: one.id,
        entry_id: entry(one),
        casualty_id: one.id,
        version_no: 1,
        plan_ids: one.plan.planIds,
        because: 'on arrival',
      })),
    ],
    ['casualty_stage', casualties.flatMap(one => stageRows(one, trade))],
  ]
}

function stageRows({ id, plan, animal }: Casualty, trade: Trade): Row[] {
  const group = groupOf(trade, animal.group)
  return plan.stages.map((stage, at) => {
    const [housing_type, ...housing_also] = housingFor(group, stage)
    return {
      casualty_plan_id: id,
      stage_no: at + 1,
      stage: stage.stage,
      housing_type,
      housing_also,
      features: stage.features,
      centre_id: null,
      estimate: stage.estimate,
      marks: stage.marks,
      waits_for: stage.stateGate,
    }
  })
}

/** The checks of the stage an animal is in, for those in care: done where their day was over by then, else due. */
export function checkRows(
  casualties: readonly Casualty[],
  until: number,
  zone: string,
  doneBy: (centreId: number) => number,
): Row[] {
  const today = dayOfInstant(new Date(until), zone)
  return casualties.flatMap(one => {
    const began = one.marks.findLast(mark => mark.kind === 'began')
    const stage = began === undefined ? undefined : one.plan.stages[began.no - 1]
    if (began === undefined || stage === undefined || one.changes.at(-1)?.keeper === 'nobody') return []
    const centreId = one.changes.findLast(change => change.centreId !== undefined)?.centreId ?? 1
    const stageBeganOn = dayOfInstant(new Date(began.at), zone)
    const admittedOn = dayOfInstant(new Date(one.arrival.at), zone)
    const planned = checksOf(one.plan.gates, stage.stage, { admittedOn, stageBeganOn, operatedOn: null })
    return planned.flatMap((check): Row[] => {
      const row = {
        casualty_id: one.id,
        stage_no: began.no,
        check_slug: check.check,
        what: check.what,
        anchor: check.anchor,
        interval_days: check.intervalDays,
        required_for: check.requiredFor,
        who: check.who,
        mark: check.mark,
      }
      const open = { done_at: null, done_by: null, passed: null }
      if (check.dueOn === null || check.dueOn >= today) {
        return [
          { ...row, due_on: dateOrNull(check.dueOn), counted_from: dateOrNull(check.countedFrom), ...open },
        ]
      }
      return datesOf(check.dueOn, check.intervalDays, today).map((day, at, all) => ({
        ...row,
        due_on: dateOfDay(day),
        counted_from: null,
        ...(at === all.length - 1 && day >= today
          ? open
          : { done_at: noonOf(day), done_by: doneBy(centreId), passed: true }),
      }))
    })
  })
}

function dateOrNull(day: number | null): string | null {
  return day === null ? null : dateOfDay(day)
}

/** The days on which a repeating check fell, up to the first that is not past. */
function datesOf(from: number, interval: number | null, today: number): number[] {
  if (interval === null) return [from]
  const days = [from]
  for (
    let day = from + interval;
    days.at(-1) !== undefined && (days.at(-1) ?? today) < today;
    day += interval
  )
    days.push(day)
  return days
}

function noonOf(day: number): string {
  return `${dateOfDay(day)}T11:00:00Z`
}

/** Every third day for a fortnight, then once a week: common practice, no source. */
function daysUntilWeighed(day: number): number {
  return day < 14 ? 3 : 7
}

export type Weighing = { readonly casualty: Casualty; readonly at: number; readonly grams: number }

/** Weights of animals in care, creeping up as they recover. */
export function listWeighings(
  casualties: readonly Casualty[],
  random: Random,
  trade: Trade,
  now: number,
): Weighing[] {
  const MS_PER_DAY = 86_400_000
  return casualties.flatMap(casualty => {
    const { animal, arrival, changes } = casualty
    const species = trade.speciesBySlug.get(animal.species)
    if (species?.mass_g_low == null || species.mass_g_high == null || changes.at(-1)?.keeper === 'nobody')
      return []
    const share = animal.age === 'young' ? 0.35 + 0.3 * random() : 0.8 + 0.15 * random()
    const start = (species.mass_g_low + random() * (species.mass_g_high - species.mass_g_low)) * share
    const weighings: Weighing[] = []
    for (let day = 0; arrival.at + day * MS_PER_DAY <= now && day < 60; day += daysUntilWeighed(day)) {
      const grams = start * (1 + 0.012 * day * (0.6 + 0.8 * random()))
      weighings.push({ casualty, at: arrival.at + day * MS_PER_DAY, grams: Number(grams.toPrecision(3)) })
    }
    return weighings
  })
}

/** Weights as rows of animals that have these numbers, entered with their arrival. */
export function weightRows(
  weighings: readonly Weighing[],
  idOf: (casualty: Casualty) => number,
  entryOf: ReadonlyMap<number, number>,
): Row[] {
  return weighings.map(({ casualty, at, grams }) => ({
    entry_id: entryOf.get(idOf(casualty)),
    casualty_id: idOf(casualty),
    at: new Date(at).toISOString(),
    grams,
  }))
}
