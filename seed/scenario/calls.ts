/**
 * Calls to the line: those of the last fortnight behind the animals that came, two that had to be sent elsewhere, and
 * last the one that waits, about a kestrel in a box by a lane near the small northern ward.
 */
import { type CallFacts, callFacts } from '#lib/domain/call-facts.ts'
import type { SheetInput } from '#lib/domain/call-sheet.ts'
import { SEVERITIES } from '#lib/domain/care-plan.ts'
import { dateOfDay, dayOfInstant } from '#lib/domain/day.ts'
import type { Random } from '#lib/kernel/random.ts'
import type { Casualty } from '../history/types.ts'
import type { Row } from '../load/bulk.ts'
import { getPlace, positionOf } from './geography.ts'
import { personIdOf } from './people.ts'

const MS_PER_MINUTE = 60_000
const BY_PHONE = 0.7
const FINDER_KEPT_DAYS = 30
export const WAITING_MINUTES = 4
export const CALL_TAKES_MINUTES = 6
const ON_THE_LINE = ['Marit Sollwyn', 'Joss Penhaddon', 'Emrik Tallowby'] as const
const FIRST = [
  'Bram',
  'Ottilie',
  'Kester',
  'Maelis',
  'Rafe',
  'Sanna',
  'Tamsyn',
  'Ulric',
  'Vesna',
  'Wynn',
  'Isolde',
  'Perran',
]
const LAST = [
  'Overwell',
  'Lindacre',
  'Hartsedge',
  'Fernhough',
  'Stillwater',
  'Ravensholt',
  'Greyfold',
  'Maltby-Rowe',
]
/** Deer that no centre of the coast can take today. */
const SENT_ON: readonly (readonly [hoursAgo: number, place: string, animals: number])[] = [
  [53, 'Corverley viaduct', 1],
  [161, 'Ollerstane ford', 1],
]

/** What was told on the line, and by whom. */
export type Told = {
  readonly at: number
  readonly place: string
  readonly species: string
  readonly age: 'adult' | 'young' | 'unknown'
  readonly count: number
  readonly condition: string
  readonly severity: string
  /** Null for those sent elsewhere. */
  readonly arrivalId: number | null
  readonly finder: { readonly name: string; readonly phone: string }
  /** Who took the call. */
  readonly takenBy: (typeof ON_THE_LINE)[number]
}

/** All calls since an instant but the one that waits, in the order in which they came. */
export function listTold(
  casualties: readonly Casualty[],
  random: Random,
  since: number,
  now: Date,
): readonly Told[] {
  const told = [...listArrived(casualties, random, since), ...listSentOn(now)].sort((a, b) => a.at - b.at)
  return told.map((call, nth) => ({
    ...call,
    finder: drawFinder(random),
    takenBy: ON_THE_LINE[(nth + 1) % ON_THE_LINE.length] ?? ON_THE_LINE[0],
  }))
}

/** Answered calls as rows, numbered from 1, and the call behind an arrival by their numbers. */
export function callRows(
  told: readonly Told[],
  zone: string,
): { readonly tables: [string, Row[]][]; readonly callOf: ReadonlyMap<number, number> } {
  return {
    tables: [
      [
        'finder',
        told.map(({ finder, at }, nth) => ({
          id: nth + 1,
          ...finder,
          expires_on: dateOfDay(dayOfInstant(new Date(at), zone) + FINDER_KEPT_DAYS),
        })),
      ],
      ['call', told.map((call, nth) => closedCall(call, nth + 1))],
    ],
    callOf: new Map(told.flatMap(({ arrivalId }, nth) => (arrivalId === null ? [] : [[arrivalId, nth + 1]]))),
  }
}

/** The facts that a call told, as the sheet keeps them. */
export function factsTold(call: Told): CallFacts {
  return callFacts.parse({
    species: call.species,
    animalTyped: call.species.replaceAll('-', ' '),
    age: call.age,
    count: call.count,
    isBrood: call.count > 1,
    whereTyped: call.place,
    where: whereOf(call.place),
    conditions: [{ slug: call.condition, severity: SEVERITIES.find(one => one === call.severity) ?? null }],
    finderName: call.finder.name,
    finderPhone: call.finder.phone,
  })
}

type Heard = Omit<Told, 'finder' | 'takenBy'>

function listArrived(casualties: readonly Casualty[], random: Random, since: number): Heard[] {
  const counts = new Map<number, number>()
  for (const { arrival } of casualties) counts.set(arrival.id, (counts.get(arrival.id) ?? 0) + 1)
  const firsts = new Map(casualties.map(one => [one.arrival.id, one]))
  return [...firsts.values()]
    .filter(one => one.arrival.at >= since && random() < BY_PHONE)
    .map(one => ({
      at: (one.changes[0]?.at ?? one.arrival.at) + 5 * MS_PER_MINUTE,
      place: one.arrival.foundWords,
      species: one.animal.species,
      age: one.animal.age,
      count: counts.get(one.arrival.id) ?? 1,
      condition: one.findings[0]?.condition ?? 'any-reason',
      severity: one.findings[0]?.severity ?? 'any',
      arrivalId: one.arrival.id,
    }))
}

function listSentOn(now: Date): Heard[] {
  return SENT_ON.map(([hoursAgo, place, count]) => ({
    at: now.getTime() - hoursAgo * 60 * MS_PER_MINUTE,
    place,
    species: 'fallow-deer',
    age: 'adult',
    count,
    condition: 'road-traffic',
    severity: 'moderate',
    arrivalId: null,
  }))
}

function drawFinder(random: Random): Told['finder'] {
  const name = (list: readonly string[]) => list[Math.floor(random() * list.length)] ?? ''
  return {
    name: `${name(FIRST)} ${name(LAST)}`,
    phone: `07700 900${600 + Math.floor(random() * 100)}`,
  }
}

function closedCall(call: Told, id: number): Row {
  return {
    id,
    opened_at: new Date(call.at).toISOString(),
    opened_by: personIdOf(call.takenBy),
    state: 'closed',
    parked_at: null,
    parked_by: null,
    closed_at: new Date(call.at + CALL_TAKES_MINUTES * MS_PER_MINUTE).toISOString(),
    facts: factsTold(call),
    finder_id: id,
  }
}

/** The sheet of the call that waits, as it was typed. */
export const WAITING_SHEET = {
  animalTyped: 'Kestrel',
  species: 'kestrel',
  age: 'adult',
  count: '1',
  whereTyped: 'Heskwith lane',
  conditions: ['leg-fracture'],
  severity: { 'leg-fracture': 'closed' },
  wrongTyped: 'leg dangling, hops on the other one',
  answers: {
    danger: 'no',
    bitten: 'no',
    'several-dead': 'no',
    nerves: 'no',
    bleeding: 'no',
    'bone-through-skin': 'no',
    conscious: 'yes',
  },
  sinceWhen: 'an hour ago',
  happenedSince: 'in a cardboard box in the car',
  finderName: 'Aldous Wrenfield',
  finderPhone: '07700 900777',
} as const satisfies SheetInput

/** The finder's position where a place of the gazetteer is named. */
export function whereOf(name: string) {
  return { how: 'gazetteer', ...positionOf(getPlace(name).spot), name }
}
