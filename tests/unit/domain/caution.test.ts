import { describe, expect, test } from 'vitest'
import {
  CAUTIONS,
  CAUTIONS_OF_CONDITIONS,
  type CautionFacts,
  cautionsFor,
  isBat,
} from '#lib/domain/caution.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const facts = (slug: string, conditions: string[], more: Partial<CautionFacts> = {}): CautionFacts => ({
  species: speciesOf(trade, slug),
  conditions: trade.conditions.filter(one => conditions.includes(one.slug)),
  answers: {},
  dangers: [],
  age: 'adult',
  notifiable: { state: 'not at risk' },
  ...more,
})
const onCall = (slug: string, conditions: string[], more?: Partial<CautionFacts>) =>
  cautionsFor(facts(slug, conditions, more), 'call').map(caution => caution.id)

// The table "Cautions" of the design; sources S14, S16, S89, S92, S47, S54, S55, S96 to S100 in trade.md, N14 in the
// species reference. The rest is common practice, no source.
describe('the cautions of a call', () => {
  test.each([
    ['grey-heron', 'eyes'],
    ['gannet', 'eyes'],
    ['kestrel', 'talons'],
    ['mute-swan', 'not-alone'],
    ['badger', 'not-alone'],
    ['red-fox', 'not-alone'],
    ['otter', 'not-alone'],
    ['grey-seal', 'seal-bite'],
    ['noctule', 'bats'],
    ['bat-unknown', 'bats'],
    ['roe-deer', 'stay-away'],
    ['peregrine', 'licence'],
    ['hedgehog', 'zoonoses'],
    ['robin', 'finder'],
  ])('for a %s hold %s', (slug, id) => {
    const known = trade.speciesBySlug.has(slug) ? slug : slug.replace('red-', '')
    expect(onCall(known, ['any-reason'])).toContain(id)
  })

  test('say a suspicion first of all', () => {
    const suspected = { state: 'suspected', disease: 'avian influenza', because: ['nerves'] } as const
    expect(onCall('mute-swan', ['any-reason'], { notifiable: suspected })[0]).toBe('notifiable-suspect')
    expect(onCall('mute-swan', ['any-reason'], { notifiable: { state: 'screened' } })[0]).toBe(
      'notifiable-screen',
    )
  })

  test('keep people away from road, rail, water, cliff and power lines', () => {
    expect(onCall('robin', ['cat-attack'])).not.toContain('stay-away')
    expect(onCall('robin', ['cat-attack'], { dangers: ['power line'] })).toContain('stay-away')
    expect(onCall('robin', ['cat-attack'], { answers: { danger: 'yes' } })).toContain('stay-away')
  })

  test('ask after a bite, and leave young that look alone', () => {
    expect(onCall('robin', ['any-reason'], { answers: { bitten: 'yes' } })).toContain('bitten')
    expect(onCall('robin', ['displaced-fledgling'], { age: 'young' })).toContain('young-alone')
    expect(onCall('robin', ['displaced-fledgling'])).not.toContain('young-alone')
  })

  test('put what binds before the options first', () => {
    for (const species of trade.species) {
      const before = cautionsFor(
        facts(species.slug, ['grounded', 'displaced-fledgling'], {
          age: 'young',
          answers: { danger: 'yes', bitten: 'yes' },
          notifiable: { state: 'screened' },
        }),
        'call',
      ).map(caution => caution.isBeforeOptions)
      expect(before).toEqual([...before].sort((a, b) => Number(b) - Number(a)))
    }
  })
})

describe('cautions elsewhere', () => {
  const at = (place: Parameters<typeof cautionsFor>[1], ...conditions: string[]) =>
    cautionsFor(facts('kestrel', conditions), place).map(caution => caution.id)

  test('stand where the design puts them', () => {
    expect(at('referral', 'coracoid-fracture')).toEqual(['coracoid-first'])
    expect(at('referral', 'leg-fracture')).toEqual([])
    expect(at('outcome', 'poisoning')).toEqual(['carcass'])
    expect(at('driver', 'any-reason')).toEqual(['talons', 'transport', 'driver-rest'])
  })
})

test.each(CAUTIONS_OF_CONDITIONS)('a condition that calls for %s is enough for it', id => {
  const named = (cautions: string[]) =>
    CAUTIONS[id].where.flatMap(place =>
      cautionsFor(
        {
          ...facts('robin', []),
          species: undefined,
          age: 'unknown',
          conditions: [{ slug: 'any-reason', cautions }],
        },
        place,
      ).map(caution => caution.id),
    )
  expect(named([id])).toContain(id)
  expect(named([])).not.toContain(id)
})

test('every caution has a mark, R for read, M for memory, CP for common practice', () => {
  expect(Object.values(CAUTIONS).filter(row => !/^(R:|M|CP)/.test(row.mark))).toEqual([])
})

test('bats are told by their group', () => {
  expect([isBat(speciesOf(trade, 'noctule')), isBat(speciesOf(trade, 'robin')), isBat(undefined)]).toEqual([
    true,
    false,
    false,
  ])
})
