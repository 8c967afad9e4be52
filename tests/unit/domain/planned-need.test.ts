import { describe, expect, test } from 'vitest'
import { planFor } from '#lib/domain/care-plan-choice.ts'
import { mustBeAlone, placeNeed } from '#lib/domain/need.ts'
import type { PlannedStage, ResidentState } from '#lib/domain/network-state.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import { groupOf, speciesOf } from '#lib/domain/trade.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const NOVEMBER = 11
const length = { medianDays: 5, p90Days: 12 }

function stage(change: Partial<PlannedStage> = {}): PlannedStage {
  return {
    no: 1,
    stage: 'restricted activity',
    housing: 'hospital-cage',
    housingAlso: ['indoor-pen'],
    features: [],
    centreId: null,
    estimate: {
      stage: 'restricted activity',
      ready: { kind: 'length', length },
      shares: { onward: 0.7, died: 0.2, euthanased: 0.1, left: 0 },
      died: length,
      euthanased: length,
    },
    ...change,
  }
}

function resident(slug: string, change: Partial<ResidentState> = {}): ResidentState {
  return {
    id: 7,
    reference: 'tern-7',
    species: slug,
    age: 'adult',
    company: speciesOf(trade, slug).company_slug,
    isAlone: false,
    arrivalId: 3,
    keeper: 'centre',
    centreId: 1,
    enclosureId: 11,
    since: new Date('2026-11-25T12:00:00Z'),
    stages: [],
    began: null,
    ready: null,
    planIds: [],
    admittedAt: null,
    word: null,
    ...change,
  }
}

const key = (change: Partial<ResidentState>, planned = stage()) =>
  plannedNeed(resident('kestrel', change), planned, trade).companyKey

describe('the need of an animal in care', () => {
  test('is what its own stage says, in the order of preference', () => {
    const need = plannedNeed(resident('kestrel'), stage({ features: ['pool'] }), trade)
    expect(need).toMatchObject({
      stage: 'restricted activity',
      housing: ['hospital-cage', 'indoor-pen'],
      features: ['pool'],
      needsIsolation: false,
      preys: 'predator',
    })
  })

  test('names who may be with it: its company, its arrival in isolation, nobody when alone', () => {
    const isolation = stage({ stage: 'quarantine', housing: 'isolation', housingAlso: [] })
    expect([key({}), key({}, isolation)]).toEqual(['kestrels', 'arrival:3:kestrels'])
    expect([key({ isAlone: true }), key({ isAlone: true }, isolation)]).toEqual(['alone:7', 'alone:7'])
  })

  test('keeps the company it was given, whatever the reference says since', () => {
    const need = plannedNeed(resident('kestrel', { company: 'merlins' }), stage(), trade)
    expect([need.company, need.companyKey]).toEqual(['merlins', 'merlins'])
  })

  test('has no stock when alone, else that of its group', () => {
    expect(plannedNeed(resident('kestrel', { isAlone: true }), stage(), trade).stock).toEqual({})
    const { stock } = groupOf(trade, speciesOf(trade, 'kestrel').group_slug)
    expect(plannedNeed(resident('kestrel'), stage(), trade).stock).toEqual(stock)
  })

  test('is the same as for a newcomer of its kind, for every species and stage of the reference', () => {
    for (const species of trade.species) {
      const group = groupOf(trade, species.group_slug)
      const animal = { species: species.slug, group: group.slug, class: species.class, age: 'adult' } as const
      const { plan } = planFor(trade, animal, [{ condition: 'emaciation' }])
      const newcomer = { species, group, age: 'adult', id: '7', arrivalId: '3', month: NOVEMBER } as const
      for (const combined of plan.stages) {
        const need = placeNeed(newcomer, combined)
        const [housing, ...housingAlso] = need.housing
        const planned = stage({
          stage: combined.stage,
          housing: housing!,
          housingAlso,
          features: [...need.features],
        })
        const kept = resident(species.slug, { isAlone: mustBeAlone(newcomer) })
        expect(plannedNeed(kept, planned, trade)).toEqual(need)
      }
    }
  })
})
