import { describe, expect, test } from 'vitest'
import { planFor } from '#lib/domain/care-plan-choice.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import {
  fitsEnclosure,
  housingFor,
  mustBeAlone,
  placeNeed,
  preferenceOf,
  sizedNeed,
} from '#lib/domain/need.ts'
import type { Age } from '#lib/domain/species.ts'
import { groupOf, speciesOf } from '#lib/domain/trade.ts'
import { aloneCompany, arrivalCompany } from '#lib/forecast/model.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()

function need(slug: string, stage: CareStage, conditions: string[], age: Age = 'adult', month = 11) {
  const species = speciesOf(trade, slug)
  const group = groupOf(trade, species.group_slug)
  const animal = { species: slug, group: group.slug, class: species.class, age }
  const { plan } = planFor(
    trade,
    animal,
    conditions.map(condition => ({ condition })),
  )
  const found = plan.stages.find(one => one.stage === stage)
  if (found === undefined) throw new Error(`${slug} has no stage ${stage}`)
  return placeNeed({ species, group, age, id: '7', arrivalId: '3', month }, found)
}

const aviary = {
  housing: 'flight-aviary',
  sizeRank: 5,
  lengthM: 15,
  features: [] as string[],
  stocking: { kestrels: 4, peregrines: 1, 'tawny-owls': 2 },
} as const

describe('the housing of a stage', () => {
  test('is what the group lives in, where the plan speaks for any bird', () => {
    expect(need('mute-swan', 'critical care', ['emaciation']).housing).toEqual(['indoor-pen'])
    expect(need('mute-swan', 'unlimited activity', ['emaciation']).housing).toEqual([
      'pool-pen',
      'outdoor-pen',
    ])
  })

  test('is what the plan of its own kind says first', () => {
    expect(need('gannet', 'critical care', ['storm-blown']).housing).toEqual(['intensive-care', 'indoor-pen'])
  })

  test('is isolation and nothing else in quarantine', () => {
    const gasping = need('robin', 'quarantine', ['breathing'], 'young')
    expect([gasping.housing, gasping.needsIsolation, gasping.companyKey]).toEqual([
      ['isolation'],
      true,
      'arrival:3:softbills-small',
    ])
    const thinToo = need('robin', 'critical care', ['breathing', 'emaciation'])
    expect(thinToo.housing).toEqual(['isolation'])
  })

  test('is never an empty list', () => {
    for (const group of trade.groups) {
      for (const plan of trade.plans) {
        for (const stage of plan.stages) {
          const row = { ...stage, housingFrom: plan.planGroup, features: [] }
          expect(housingFor(group, row).length).toBeGreaterThan(0)
        }
      }
    }
  })
})

describe('company', () => {
  test.each([
    ['robin', 'adult', 11, true],
    ['robin', 'young', 5, false],
    ['blackbird', 'adult', 2, true],
    ['blackbird', 'adult', 11, false],
    ['kestrel', 'unknown', 11, false],
    ['hedgehog', 'unknown', 11, true],
    ['pigeon-sized-bird', 'young', 5, true],
  ] as const)('a %s (%s, month %i) is alone: %s', (slug, age, month, alone) => {
    expect(mustBeAlone({ species: speciesOf(trade, slug), age, month })).toBe(alone)
  })

  test('keys are those of the forecast', () => {
    const hedgehog = need('hedgehog', 'critical care', ['any-reason'])
    expect(hedgehog.companyKey).toBe(aloneCompany('7'))
    expect(need('robin', 'quarantine', ['breathing']).companyKey).toBe(aloneCompany('7'))
    const young = need('robin', 'quarantine', ['breathing'], 'young')
    expect(young.companyKey).toBe(arrivalCompany('3:softbills-small'))
    expect(need('kestrel', 'critical care', ['any-reason'], 'young').companyKey).toBe('kestrels')
  })
})

describe('the size for the forecast', () => {
  test('is metres of flight in aviaries and a rank elsewhere', () => {
    const flying = need('kestrel', 'unlimited activity', ['any-reason'], 'young')
    expect(sizedNeed(flying, 'flight-aviary')).toEqual({
      housing: 'flight-aviary',
      size: 4.9,
      company: 'kestrels',
      stock: 4,
    })
    const resting = need('kestrel', 'restricted activity', ['any-reason'])
    expect(sizedNeed(resting, 'hospital-cage').size).toBe(speciesOf(trade, 'kestrel').size_rank)
  })

  test('asks a third of the flight where flight is limited', () => {
    const limited = need('kestrel', 'limited activity', ['any-reason'])
    expect(sizedNeed(limited, 'sheltered-aviary').size).toBeCloseTo(4.9 / 3, 12)
  })

  test('counts an animal that is alone as one to an enclosure', () => {
    expect(sizedNeed(need('hedgehog', 'critical care', ['any-reason']), 'intensive-care').stock).toBe(1)
  })
})

describe('an enclosure', () => {
  const kestrel = need('kestrel', 'unlimited activity', ['any-reason'], 'young')

  test('fits with nothing against it', () => {
    expect(fitsEnclosure(kestrel, aviary)).toEqual([])
    expect(preferenceOf(kestrel, aviary)).toBe(0)
  })

  test('says everything that is against it', () => {
    expect(fitsEnclosure(need('peregrine', 'unlimited activity', ['any-reason']), aviary)).toEqual([
      { rule: 'too short to fly in', hasM: 15, needsM: 30.5 },
    ])
    expect(fitsEnclosure(kestrel, { ...aviary, housing: 'outdoor-pen', sizeRank: 1, stocking: {} })).toEqual([
      { rule: 'wrong housing', has: 'outdoor-pen', wants: ['flight-aviary'] },
      { rule: 'too small', has: 1, needs: speciesOf(trade, 'kestrel').size_rank },
      { rule: 'not set up for', company: 'kestrels' },
    ])
  })

  test('keeps isolation for quarantine, and quarantine in isolation', () => {
    const isolation = {
      ...aviary,
      housing: 'isolation',
      stocking: { 'softbills-small': 1, kestrels: 1 },
    } as const
    expect(fitsEnclosure(kestrel, isolation)).toContainEqual({ rule: 'kept for isolation' })
    const gasping = need('robin', 'quarantine', ['breathing'])
    expect(fitsEnclosure(gasping, isolation)).toEqual([])
    expect(fitsEnclosure(gasping, { ...aviary, stocking: { 'softbills-small': 1 } })).toContainEqual({
      rule: 'isolation only',
      has: 'flight-aviary',
    })
  })

  test('needs a pool and flight where both are wanted', () => {
    const both = { ...kestrel, features: ['pool', 'flight'] }
    expect(fitsEnclosure(both, aviary)).toEqual([{ rule: 'lacks', feature: 'pool' }])
    expect(fitsEnclosure(both, { ...aviary, features: ['pool'] })).toEqual([])
  })
})
