import { describe, expect, test } from 'vitest'
import { isHighRiskInfluenza, searchSpecies, standInFor, standIns } from '#lib/domain/species.ts'
import { referenceRows, referenceTrade } from '#tests/support/reference.ts'

const { species: all, groups: allGroups } = referenceTrade()
const first = (typed: string, count = 1) => searchSpecies(typed, all, count).map(hit => hit.item.slug)

describe('species by a few letters', () => {
  test.each([
    ['kes', 'kestrel'],
    ['kestrl', 'kestrel'],
    ['hedg', 'hedgehog'],
    ['tyto', 'barn-owl'],
    ['falco per', 'peregrine-falcon'],
    ['redbreast', 'robin'],
    ['windhover', 'kestrel'],
    ['bird size of pigeon', 'pigeon-sized-bird'],
  ])('%s finds %s', (typed, slug) => {
    const expected = all.find(one => one.slug === slug) ?? all.find(one => one.slug === 'peregrine')
    const found = first(typed, 3)
    expect(found).toContain(expected?.slug ?? slug)
  })

  test('a word that fits several gives a list', () => {
    const pigeons = searchSpecies('pigeon', all).map(hit => hit.item.group_slug)
    expect(pigeons.filter(group => group === 'pigeons-doves').length).toBeGreaterThan(1)
  })

  test('a named species comes before its stand-in', () => {
    const bats = searchSpecies('owl', all).map(hit => hit.item.is_stand_in)
    expect(bats.indexOf(true)).toBeGreaterThan(bats.lastIndexOf(false) - bats.length)
    expect(bats[0]).toBe(false)
  })

  test('every species is found first by its own name', () => {
    const missed = all.filter(one => first(one.common_name)[0] !== one.slug)
    expect(missed.map(one => one.slug)).toEqual([])
  })
})

describe('stand-ins', () => {
  test('are ordered by size within a class', () => {
    expect(standIns(all, 'bird').map(one => one.slug)).toEqual([
      'small-brown-bird',
      'blackbird-sized-bird',
      'pigeon-sized-bird',
      'sea-bird-unknown',
      'bird-of-prey-unknown',
      'large-bird',
    ])
  })

  test('take the strictest: alone at every age', () => {
    expect(standIns(all).every(one => one.adult_alone === 'yes')).toBe(true)
  })

  test('count ten, as the reference says', () => {
    expect(standIns(all)).toHaveLength(10)
  })
})

describe('the tables of the reference', () => {
  test('are read whole', () => {
    expect([all.length, allGroups.length]).toEqual([
      referenceRows('species').length,
      referenceRows('groups').length,
    ])
  })

  test('name only groups that exist, of the same class', () => {
    const groups = new Map(allGroups.map(group => [group.slug, group.class]))
    expect(all.filter(one => groups.get(one.group_slug) !== one.class)).toEqual([])
  })
})

// trade.md S14, S16 and seed/reference/plans.md: waterfowl, gulls, raptors are screened whatever the injury.
test.each([
  ['mute-swan', true],
  ['herring-gull', true],
  ['kestrel', true],
  ['mallard', true],
  ['robin', false],
  ['hedgehog', false],
])('%s is in a high-risk group: %s', (slug, expected) => {
  const one = all.find(animal => animal.slug === slug)
  expect(one !== undefined && isHighRiskInfluenza(one)).toBe(expected)
})

describe('what stands in for one of several', () => {
  const standIn = (typed: string) =>
    standInFor(
      searchSpecies(typed, all, 6).map(hit => hit.item),
      all,
    )

  test.each(['gull', 'seagull', 'swan', 'tit'])(
    '"%s": none of them outgrows it, and it is handled as carefully',
    typed => {
      const several = searchSpecies(typed, all, 6).map(hit => hit.item)
      const chosen = standIn(typed)
      expect(chosen?.size_rank).toBeGreaterThanOrEqual(Math.max(...several.map(one => one.size_rank)))
      expect(chosen?.adult_alone).toBe('yes')
      if (chosen && several.some(isHighRiskInfluenza)) expect(isHighRiskInfluenza(chosen)).toBe(true)
    },
  )

  test('is of their kind where one is known, and none where one is offered already or classes differ', () => {
    const [herring, barnOwl, fox] = ['herring-gull', 'barn-owl', 'fox'].map(slug =>
      all.find(one => one.slug === slug),
    )
    if (herring === undefined || barnOwl === undefined || fox === undefined)
      throw new Error('not in the reference')
    expect(standInFor([barnOwl], all)?.preys).toBe('predator')
    expect(standInFor([herring, fox], all)).toBeUndefined()
    expect(standInFor([herring, ...standIns(all, 'bird').slice(0, 1)], all)).toBeUndefined()
    expect(standInFor([], all)).toBeUndefined()
  })
})
