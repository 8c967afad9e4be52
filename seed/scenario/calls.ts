/**
 * Calls to the line: those of the last fortnight behind the animals that came, two that had to be sent elsewhere, and
 * last the one that waits, about a kestrel in a box by a lane near the small northern ward.
 */
import { callFacts } from '#lib/domain/call-facts.ts'
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
const WAITING_MINUTES = 4
const CALL_TAKES_MINUTES = 6
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

export type Calls = {
  readonly tables: [string, Row[]][]
  /** The call behind an arrival, by their numbers. */
  readonly callOf: ReadonlyMap<number, number>
}

type Told = {
  readonly at: number
  readonly place: string
  readonly species: string
  readonly age: 'adult' | 'young' | 'unknown'
  readonly count: number
  readonly condition: string
  readonly severity: string
  readonly arrivalId: number | null
}

/** All calls since an instant, numbered as they came; the one that waits is the last. */
export function callsOf(
  casualties: readonly Casualty[],
  random: Random,
  since: number,
  now: Date,
  zone: string,
): Calls {
  const told = [...listTold(casualties, random, since), ...listSentOn(now)].sort((a, b) => a.at - b.at)
  const rows = told.map((call, at) => ({
    call,
    id: at + 1,
    finder: drawFinder(random, at + 1, call.at, zone),
  }))
  const closed = rows.map(({ call, id, finder }) => closedCall(call, id, finder))
  const waiting = waitingCall(now, told.length + 1, zone)
  return {
    tables: [
      ['finder', [...rows.map(row => row.finder), waiting.finder]],
      ['call', [...closed, waiting.call]],
      ['unmet_demand', rows.flatMap(({ call, id }) => (call.arrivalId === null ? [unmet(call, id)] : []))],
    ],
    callOf: new Map(rows.flatMap(({ call, id }) => (call.arrivalId === null ? [] : [[call.arrivalId, id]]))),
  }
}

function listTold(casualties: readonly Casualty[], random: Random, since: number): Told[] {
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

function listSentOn(now: Date): Told[] {
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

function unmet(call: Told, id: number): Row {
  return {
    call_id: id,
    at: new Date(call.at + CALL_TAKES_MINUTES * MS_PER_MINUTE).toISOString(),
    kind: 'redirect',
    group_slug: 'deer',
    animals: call.count,
    reason: 'Velden Moor Deer Line',
  }
}

function drawFinder(random: Random, id: number, at: number, zone: string) {
  const name = (list: readonly string[]) => list[Math.floor(random() * list.length)] ?? ''
  return {
    id,
    name: `${name(FIRST)} ${name(LAST)}`,
    phone: `07700 900${600 + Math.floor(random() * 100)}`,
    expires_on: dateOfDay(dayOfInstant(new Date(at), zone) + FINDER_KEPT_DAYS),
  }
}

function closedCall(call: Told, id: number, finder: { readonly name: string; readonly phone: string }): Row {
  const facts = callFacts.parse({
    species: call.species,
    animalTyped: call.species.replaceAll('-', ' '),
    age: call.age,
    count: call.count,
    isBrood: call.count > 1,
    whereTyped: call.place,
    where: whereOf(call.place),
    conditions: [{ slug: call.condition, severity: SEVERITIES.find(one => one === call.severity) ?? null }],
    finderName: finder.name,
    finderPhone: finder.phone,
  })
  return {
    id,
    opened_at: new Date(call.at).toISOString(),
    opened_by: personIdOf(ON_THE_LINE[id % ON_THE_LINE.length] ?? ON_THE_LINE[0]),
    state: 'closed',
    parked_at: null,
    parked_by: null,
    closed_at: new Date(call.at + CALL_TAKES_MINUTES * MS_PER_MINUTE).toISOString(),
    facts,
    finder_id: id,
  }
}

function waitingCall(now: Date, id: number, zone: string): { readonly finder: Row; readonly call: Row } {
  const place = 'Heskwith lane'
  const facts = callFacts.parse({
    species: 'kestrel',
    animalTyped: 'kestrel',
    age: 'adult',
    whereTyped: place,
    where: whereOf(place),
    conditions: [{ slug: 'leg-fracture', severity: 'closed' }],
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
  })
  const opened = new Date(now.getTime() - WAITING_MINUTES * MS_PER_MINUTE)
  return {
    finder: {
      id,
      name: facts.finderName,
      phone: facts.finderPhone,
      expires_on: dateOfDay(dayOfInstant(opened, zone) + FINDER_KEPT_DAYS),
    },
    call: {
      id,
      opened_at: opened.toISOString(),
      opened_by: personIdOf('Marit Sollwyn'),
      state: 'parked',
      parked_at: now.toISOString(),
      parked_by: personIdOf('Marit Sollwyn'),
      closed_at: null,
      facts,
      finder_id: id,
    },
  }
}

function whereOf(name: string) {
  return { how: 'gazetteer', ...positionOf(getPlace(name).spot), name }
}
