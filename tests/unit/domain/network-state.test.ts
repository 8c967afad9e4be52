import { describe, expect, test } from 'vitest'
import { networkState } from '#lib/domain/network-state.ts'

const NOON = '2026-11-25T12:00:00+00:00'

const claim = {
  id: 1,
  kind: 'stay',
  enclosureId: 11,
  placeNo: 1,
  companyKey: 'kestrels',
  roomApartId: null,
  preys: 'predator',
  casualtyId: 7,
  startsAt: NOON,
  endsAt: null,
  expectedAt: null,
  expiresAt: null,
}
const length = { medianDays: 5, p90Days: 12 }
const stage = {
  no: 1,
  stage: 'restricted activity',
  housing: 'hospital-cage',
  housingAlso: [],
  features: [],
  centreId: null,
  estimate: {
    stage: 'restricted activity',
    ready: { kind: 'length', length },
    shares: { onward: 0.7, died: 0.2, euthanased: 0.1, left: 0 },
    died: length,
    euthanased: length,
  },
}
const resident = {
  id: 7,
  reference: 'tern-7',
  species: 'kestrel',
  age: 'adult',
  company: 'kestrels',
  isAlone: false,
  arrivalId: 3,
  keeper: 'centre',
  centreId: 1,
  enclosureId: 11,
  since: NOON,
  stages: [stage],
  began: { no: 1, at: NOON },
  ready: null,
}
const state = {
  revision: 12,
  knowledgeRevision: 3,
  housingRevision: 2,
  name: 'An invented coast',
  zone: 'Europe/London',
  linePhone: '01632 960000',
  authorityName: 'The authority',
  authorityPhone: '01632 960009',
  policy: {
    preset: 'balanced',
    kappa: 0.4,
    omega: 4,
    transfer_place_days: 2,
    km_per_place_day: 40,
    refusal_place_days: 20,
    redirect_place_days: 5,
    keep_advice_place_days: 0.25,
    keep_tomorrow_place_days: 0.5,
    keep_today_place_days: 3,
    tight_chance: 0.2,
    hold_minutes: 240,
    ask_lapse_minutes: 60,
    finder_days: 90,
    version: 1,
  },
  centres: [],
  travel: [],
  enclosures: [],
  closures: [],
  claims: [claim],
  residents: [resident],
  arrivals: [],
  practices: [],
  outsidePlaces: [],
}

function refused(change: Record<string, unknown>): string[] {
  const read = networkState.safeParse({ ...state, ...change })
  return read.success ? [] : read.error.issues.map(issue => issue.path.join('.'))
}

describe('the network at one moment', () => {
  test('has its instants as dates, and "no end" as no end', () => {
    const read = networkState.parse(state)
    expect(read.claims[0]).toEqual({ ...claim, startsAt: new Date(NOON) })
    expect(read.residents[0]?.began).toEqual({ no: 1, at: new Date(NOON) })
  })

  test('reads the same again from what it gave', () => {
    const read = networkState.parse(state)
    expect(networkState.parse(read)).toEqual(read)
    expect(networkState.parse(JSON.parse(JSON.stringify(read)))).toEqual(read)
  })

  test('keeps an instant written in another offset', () => {
    const read = networkState.parse({
      ...state,
      claims: [{ ...claim, startsAt: '2026-11-25T14:00:00+02:00' }],
    })
    expect(read.claims[0]?.startsAt).toEqual(new Date(NOON))
  })

  test.each<[string, Record<string, unknown>, string]>([
    ['a claim of no kind', { claims: [{ ...claim, kind: 'wish' }] }, 'claims.0.kind'],
    ['a claim without a beginning', { claims: [{ ...claim, startsAt: null }] }, 'claims.0.startsAt'],
    ['an instant that is none', { claims: [{ ...claim, startsAt: 'at noon' }] }, 'claims.0.startsAt'],
    ['half a place', { claims: [{ ...claim, placeNo: 1.5 }] }, 'claims.0.placeNo'],
    [
      'a stage in no known housing',
      { residents: [{ ...resident, stages: [{ ...stage, housing: 'barn' }] }] },
      'residents.0.stages.0.housing',
    ],
    [
      'odds that do not sum to one',
      {
        residents: [
          {
            ...resident,
            stages: [
              { ...stage, estimate: { ...stage.estimate, shares: { ...stage.estimate.shares, left: 0.1 } } },
            ],
          },
        ],
      },
      'residents.0.stages.0.estimate.shares',
    ],
    ['a policy without its name', { policy: { ...state.policy, preset: 'mine' } }, 'policy.preset'],
    ['no revision', { revision: undefined }, 'revision'],
  ])('refuses %s', (_, change, path) => {
    expect(refused(change)).toEqual([path])
  })
})
