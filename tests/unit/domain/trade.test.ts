import { describe, expect, test } from 'vitest'
import { groupOf, speciesOf, tradeOf } from '#lib/domain/trade.ts'
import { referenceRows, referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()

describe('the trade', () => {
  test('finds each species, group and condition of the reference by its own name', () => {
    const slugs = (name: string) => referenceRows(name).map(row => row['slug'])
    expect([...trade.speciesBySlug.keys()]).toEqual(slugs('species'))
    expect([...trade.groupBySlug.keys()]).toEqual(slugs('groups'))
    expect([...trade.conditionBySlug.keys()]).toEqual(slugs('conditions'))
    for (const one of trade.species) expect(speciesOf(trade, one.slug)).toBe(one)
    for (const one of trade.groups) expect(groupOf(trade, one.slug)).toBe(one)
  })

  test('points to nothing that it does not hold', () => {
    for (const one of trade.species) expect(groupOf(trade, one.group_slug).class).toBe(one.class)
    const planGroups = trade.planGroups.map(one => one.slug)
    for (const plan of trade.plans) {
      expect(planGroups).toContain(plan.planGroup)
      expect([...trade.conditionBySlug.keys()]).toContain(plan.condition)
    }
  })

  test('throws for a name it does not know, and names it', () => {
    expect(() => speciesOf(trade, 'falcons')).toThrow('no species falcons')
    expect(() => groupOf(trade, 'kestrel')).toThrow('no group kestrel')
  })

  test('is of one revision, and empty where nothing is known yet', () => {
    const nothing = {
      groups: [],
      species: [],
      conditions: [],
      planGroups: [],
      plans: [],
      keys: [],
      places: [],
    }
    const empty = tradeOf({ jurisdiction: '', revision: 9, ...nothing })
    expect([empty.revision, empty.speciesBySlug.size, empty.plans]).toEqual([9, 0, []])
  })
})
