import { describe, expect, test } from 'vitest'
import { knowledge } from '#lib/domain/knowledge.ts'
import { referenceRows, referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const { groups, species, conditions, keys } = trade
const whole = {
  revision: 4,
  jurisdiction: 'England',
  groups,
  species,
  conditions,
  keys,
  planGroups: [],
  plans: [],
  places: [],
}
const [group, animal, condition, key] = [groups[0]!, species[0]!, conditions[0]!, keys[0]!]

/** The paths of what is refused in a snapshot with this change. */
function refused(change: Record<string, unknown>): string[] {
  const read = knowledge.safeParse({ ...whole, ...change })
  return read.success ? [] : read.error.issues.map(issue => issue.path.join('.'))
}

describe('the knowledge', () => {
  test('is read as it stands, nothing dropped and nothing made up', () => {
    expect(knowledge.parse(whole)).toEqual(whole)
    expect(refused({})).toEqual([])
  })

  test('keeps the source mark of every number of the reference', () => {
    const marks = (row: Record<string, unknown>) => [
      row['slug'],
      row['mass_mark'],
      row['flight_mark'] || null,
    ]
    expect(species.map(marks)).toEqual(referenceRows('species').map(marks))
    const why = (row: Record<string, unknown>) => [
      row['slug'],
      row['mark_urgency'],
      row['mark_deadline'] || null,
    ]
    expect(conditions.map(why)).toEqual(referenceRows('conditions').map(why))
  })

  test.each<[string, Record<string, unknown>, string]>([
    ['an animal neither bird nor mammal', { species: [{ ...animal, class: 'fish' }] }, 'species.0.class'],
    ['a mass in words', { species: [{ ...animal, mass_g_low: '200' }] }, 'species.0.mass_g_low'],
    ['half a month', { species: [{ ...animal, young_from_month: 4.5 }] }, 'species.0.young_from_month'],
    ['an unknown housing', { groups: [{ ...group, stock: { barn: 2 } }] }, 'groups.0.stock.barn'],
    [
      'an unknown stage of care',
      { groups: [{ ...group, housing: { 'light duty': ['isolation'] } }] },
      'groups.0.housing.light duty',
    ],
    [
      'an urgency outside the four',
      { conditions: [{ ...condition, default_urgency: 'soon' }] },
      'conditions.0.default_urgency',
    ],
    ['a key of an unknown kind', { keys: [{ ...key, kind: 'price' }] }, 'keys.0.kind'],
    ['a snapshot without its revision', { revision: undefined }, 'revision'],
  ])('refuses %s, and says where', (_, change, path) => {
    expect(refused(change).map(at => (path.startsWith(`${at}.`) ? path : at))).toEqual([path])
  })

  test('refuses a number without its mark', () => {
    const { mass_mark: _mark, ...unmarked } = animal
    expect(refused({ species: [unmarked] })).toEqual(['species.0.mass_mark'])
  })
})
