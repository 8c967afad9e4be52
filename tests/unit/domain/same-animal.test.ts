import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { groupsOfSame, type HeardOf, mayBeSame } from '#lib/domain/same-animal.ts'

const NOON = new Date('2026-06-10T12:00:00Z')
const HESKWITH = { how: 'gazetteer', latitude: 54, longitude: -3, name: 'x', placeId: 1 } as const
/** One minute of arc along a meridian is one nautical mile, 1.852 km (the nautical mile's definition until 1929). */
const KM_NORTH = 1 / 60 / 1.852

const kind = (slug: string, more: object = {}) =>
  [
    slug,
    {
      slug,
      class: 'bird',
      group_slug: slug,
      is_stand_in: false,
      mass_g_low: 150,
      mass_g_high: 250,
      preys: null,
      ...more,
    },
  ] as const
const SPECIES = new Map([
  kind('kestrel', { group_slug: 'falcons', preys: 'predator' }),
  kind('merlin', { group_slug: 'falcons', preys: 'predator' }),
  kind('woodpigeon', { preys: 'prey', mass_g_low: 450, mass_g_high: 600 }),
  kind('hedgehog', { class: 'mammal', mass_g_low: 450, mass_g_high: 1200 }),
  kind('bird-of-prey-unknown', { is_stand_in: true, preys: 'predator', mass_g_low: 100, mass_g_high: 7000 }),
  kind('pigeon-sized-bird', { is_stand_in: true, mass_g_low: 150, mass_g_high: 700 }),
  kind('small-brown-bird', { is_stand_in: true, preys: 'prey', mass_g_low: 8, mass_g_high: 40 }),
] as const)

const heard = (species: string | null, north = 0, hours = 0): HeardOf => ({
  openedAt: new Date(NOON.getTime() + hours * 3_600_000),
  facts: { species, where: { ...HESKWITH, latitude: HESKWITH.latitude + north * KM_NORTH } },
})
const asks = (a: HeardOf, b: HeardOf) => mayBeSame(a, b, SPECIES)

describe('"same animal?"', () => {
  it('is asked within 1 km and 3 h, whichever call came first', () => {
    expect(asks(heard('kestrel'), heard('kestrel', 0.98, 2.99))).toBe(true)
    expect(asks(heard('kestrel', 0.98, 2.99), heard('kestrel'))).toBe(true)
    expect(asks(heard('kestrel'), heard('kestrel', 1.02))).toBe(false)
    expect(asks(heard('kestrel'), heard('kestrel', 0, 3.01))).toBe(false)
  })

  it('is asked of one species, one group, and of a stand-in that could be it', () => {
    const of = (a: string, b: string) => asks(heard(a), heard(b))
    expect(of('kestrel', 'merlin')).toBe(true)
    expect(of('kestrel', 'bird-of-prey-unknown')).toBe(true)
    expect(of('kestrel', 'pigeon-sized-bird')).toBe(true)
    expect(of('pigeon-sized-bird', 'bird-of-prey-unknown')).toBe(true)
    expect(of('kestrel', 'woodpigeon')).toBe(false)
    expect(of('woodpigeon', 'bird-of-prey-unknown')).toBe(false)
    expect(of('kestrel', 'small-brown-bird')).toBe(false)
    expect(of('hedgehog', 'pigeon-sized-bird')).toBe(false)
  })

  it('is not asked while animal or place is not known', () => {
    expect(asks(heard(null), heard(null))).toBe(false)
    expect(asks(heard('kestrel'), { openedAt: NOON, facts: { species: 'kestrel', where: null } })).toBe(false)
  })
})

describe('calls about the same animal', () => {
  it('stand together at the place of the first, also through a third', () => {
    const calls = [1, 2, 3, 4, 5].map(id => ({ id }))
    const same = (firstId: number, secondId: number) => ({ firstId, secondId, isSame: true })
    const apart = (firstId: number, secondId: number) => ({ firstId, secondId, isSame: false })
    const ids = (groups: { id: number }[][]) => groups.map(group => group.map(({ id }) => id))
    expect(ids(groupsOfSame(calls, [same(2, 4), same(4, 5), apart(1, 3)]))).toEqual([[1], [2, 4, 5], [3]])
    expect(ids(groupsOfSame(calls, []))).toEqual([[1], [2], [3], [4], [5]])
  })

  it('are each in one group, and two in one group just when a chain of pairs leads from one to the other', () => {
    const pair = fc.tuple(fc.integer({ min: 1, max: 8 }), fc.integer({ min: 1, max: 8 }), fc.boolean())
    fc.assert(
      fc.property(fc.array(pair, { maxLength: 12 }), drawn => {
        const pairs = drawn.map(([firstId, secondId, isSame]) => ({ firstId, secondId, isSame }))
        const calls = Array.from({ length: 8 }, (_, n) => ({ id: n + 1 }))
        const groups = groupsOfSame(calls, pairs)
        expect(
          groups
            .flat()
            .map(({ id }) => id)
            .sort(),
        ).toEqual(calls.map(({ id }) => id))
        const reach = reachable(pairs)
        for (const group of groups) {
          for (const { id } of calls) {
            expect(group.some(one => one.id === id)).toBe(reach(group[0]!.id).has(id))
          }
        }
      }),
    )
  })
})

/** By walking the pairs, which the groups do not. */
function reachable(pairs: readonly { firstId: number; secondId: number; isSame: boolean }[]) {
  return (from: number) => {
    const seen = new Set([from])
    for (const id of seen) {
      for (const { firstId, secondId, isSame } of pairs) {
        if (!isSame) continue
        if (firstId === id) seen.add(secondId)
        if (secondId === id) seen.add(firstId)
      }
    }
    return seen
  }
}
