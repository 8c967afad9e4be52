import { describe, expect, test } from 'vitest'
import {
  conditionsFor,
  isUsuallyOperated,
  searchConditions,
  strictestQuarantine,
} from '#lib/domain/condition.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const all = referenceTrade().conditions
const found = (typed: string, ofClass?: 'bird' | 'mammal') =>
  searchConditions(typed, all, ofClass).map(hit => hit.item.slug)

describe('conditions by the words of a finder', () => {
  test.each([
    ['broken wing', 'wing-fracture'],
    ['wing hangs', 'wing-fracture'],
    ['cat had it', 'cat-attack'],
    ['hit the glass', 'head-trauma'],
    ['fishing line', 'tackle'],
    ['maggots', 'flystrike'],
    ['magots', 'flystrike'],
    ['bird flu', 'notifiable-suspect'],
    ['gasping', 'breathing'],
    ['run over', 'road-traffic'],
  ])('%s finds %s first', (typed, slug) => {
    expect(found(typed)[0]).toBe(slug)
  })

  test('leave out what the animal cannot have', () => {
    expect(found('mange', 'bird')).toEqual([])
    expect(found('broken wing', 'mammal')).not.toContain('wing-fracture')
    expect(conditionsFor(all, 'mammal').some(one => one.applies_to === 'bird')).toBe(false)
    expect(conditionsFor(all)).toHaveLength(all.length)
  })
})

test('the strictest quarantine holds for all', () => {
  const of = (...slugs: string[]) => strictestQuarantine(all.filter(one => slugs.includes(one.slug)))
  expect([of(), of('cat-attack'), of('cat-attack', 'emaciation'), of('emaciation', 'breathing')]).toEqual([
    'none',
    'none',
    'screen',
    'isolate',
  ])
})

test('a broken leg usually goes to a surgeon, a coracoid does not', () => {
  const operated = all.filter(isUsuallyOperated).map(one => one.slug)
  expect(operated).toContain('leg-fracture')
  expect(operated).not.toContain('coracoid-fracture') // trade.md S47: cage rest first
})
