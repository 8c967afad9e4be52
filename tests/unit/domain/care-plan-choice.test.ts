import { describe, expect, test } from 'vitest'
import {
  choosePlan,
  type PlanAnimal,
  planFor,
  planGroupsOf,
  severitiesOf,
} from '#lib/domain/care-plan-choice.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const library = referenceTrade()
const all = library.species
const animal = (slug: string, age: PlanAnimal['age'] = 'adult'): PlanAnimal => {
  const found = all.find(one => one.slug === slug)
  if (found === undefined) throw new Error(`no species ${slug}`)
  return { species: slug, group: found.group_slug, class: found.class, age }
}
const kestrel = animal('kestrel')

describe('the plan groups of an animal', () => {
  test.each([
    ['kestrel', 'adult', ['kestrel', 'raptor', 'any bird']],
    ['buzzard', 'adult', ['raptor', 'any bird']],
    ['guillemot', 'adult', ['auk', 'seabird', 'any bird']],
    ['herring-gull', 'young', ['gull', 'seabird', 'any bird']],
    ['woodpigeon', 'adult', ['woodpigeon adult', 'pigeon', 'any bird']],
    ['woodpigeon', 'unknown', ['pigeon', 'any bird']],
    ['badger', 'adult', ['badger adult', 'badger', 'any mammal']],
    ['badger', 'young', ['badger', 'any mammal']],
    ['grey-seal', 'young', ['grey seal', 'any mammal']],
    ['otter', 'adult', ['any mammal']],
    ['pigeon-sized-bird', 'unknown', ['any bird']],
    ['bird-of-prey-unknown', 'unknown', ['raptor', 'any bird']],
  ] as const)('of a %s (%s) go from its own to any of its class', (slug, age, chain) => {
    expect(planGroupsOf(animal(slug, age), library.planGroups)).toEqual(chain)
  })
})

describe('the choice of a plan', () => {
  const chosen = (who: PlanAnimal, finding: Parameters<typeof choosePlan>[2]) => {
    const { plan, because } = choosePlan(library, who, finding)
    return [plan.id, because]
  }

  test('takes its own group first', () => {
    expect(chosen(kestrel, { condition: 'any-reason' })).toEqual(['any-reason.kestrel.any.none', 'own group'])
  })

  test('goes wider before it changes the severity', () => {
    expect(chosen(kestrel, { condition: 'cat-attack', severity: 'severe' })).toEqual([
      'cat-attack.any-bird.severe.none',
      'wider group',
    ])
    expect(chosen(kestrel, { condition: 'coracoid-fracture', severity: 'closed' })).toEqual([
      'coracoid-fracture.raptor.closed.conservative',
      'wider group',
    ])
  })

  test('takes the moderate plan where the severity has none', () => {
    expect(chosen(kestrel, { condition: 'wound', severity: 'severe' })).toEqual([
      'wound.any-bird.moderate.none',
      'moderate instead',
    ])
  })

  test('takes the plan for any reason where the condition has none', () => {
    expect(chosen(animal('otter'), { condition: 'lead', severity: 'severe' })).toEqual([
      'any-reason.any-mammal.any.none',
      'any reason instead',
    ])
  })

  test('serves any severity by a plan without a split', () => {
    expect(chosen(animal('guillemot'), { condition: 'oiled', severity: 'severe' })[0]).toBe(
      'oiled.auk.any.none',
    )
  })

  test('takes the middle severity until somebody says', () => {
    expect(chosen(animal('robin'), { condition: 'cat-attack' })[0]).toBe('cat-attack.any-bird.moderate.none')
    expect(chosen(animal('robin'), { condition: 'breathing' })[0]).toBe('breathing.any-bird.severe.none')
  })

  test('rests a fracture unless it is usually operated or a vet says so', () => {
    const humerus = (more: object) => chosen(animal('buzzard'), { condition: 'humerus-fracture', ...more })[0]
    expect(humerus({})).toBe('humerus-fracture.raptor.any.conservative')
    expect(humerus({ isUsuallyOperated: true })).toBe('humerus-fracture.raptor.any.surgical')
    expect(humerus({ isUsuallyOperated: true, treatment: 'conservative' })).toBe(
      'humerus-fracture.raptor.any.conservative',
    )
  })

  test('finds a plan for every species, age and condition', () => {
    for (const one of all) {
      for (const { slug } of library.conditions) {
        for (const age of ['adult', 'young', 'unknown'] as const) {
          const { plan } = choosePlan(library, animal(one.slug, age), { condition: slug })
          expect([slug, 'any-reason']).toContain(plan.condition)
        }
      }
    }
  })
})

describe('one plan for all findings', () => {
  test('is the average of the group when nothing is known', () => {
    expect(planFor(library, animal('pigeon-sized-bird', 'unknown'), []).plan.planIds).toEqual([
      'any-reason.any-bird.any.none',
    ])
  })

  test('leaves the average out once something is known', () => {
    const { plan, choices } = planFor(library, kestrel, [
      { condition: 'any-reason' },
      { condition: 'emaciation' },
      { condition: 'coracoid-fracture' },
    ])
    expect(plan.planIds).toEqual([
      'coracoid-fracture.raptor.closed.conservative',
      'emaciation.any-bird.moderate.none',
    ])
    expect(choices.map(choice => choice.condition)).toEqual(['any-reason', 'emaciation', 'coracoid-fracture'])
  })
})

describe('the same question', () => {
  const cat = [{ condition: 'cat-attack', severity: 'mild' }] as const

  test('has the same plan, by which what is computed from it can be kept', () => {
    const before = planFor(library, kestrel, cat)
    expect(planFor(library, { ...kestrel }, [{ condition: 'cat-attack', severity: 'mild' }])).toBe(before)
  })

  test('is another one for another animal, how bad it is, and a library that was changed', () => {
    const before = planFor(library, kestrel, cat)
    expect(planFor(library, kestrel, [{ condition: 'cat-attack', severity: 'severe' }])).not.toEqual(before)
    expect(planFor(library, animal('hedgehog', 'adult'), cat)).not.toEqual(before)
    const [plan] = before.choices.map(choice => choice.plan)
    const changed = { ...library, plans: library.plans.filter(one => one !== plan) }
    expect(planFor(changed, kestrel, cat)).not.toEqual(before)
  })
})

describe('how bad it can be said to be', () => {
  test('follows the splits of the nearest group', () => {
    expect(severitiesOf(library, kestrel, 'cat-attack')).toEqual(['moderate', 'mild', 'severe'])
    expect(severitiesOf(library, kestrel, 'coracoid-fracture')).toEqual(['closed'])
    expect(severitiesOf(library, animal('otter'), 'lead')).toEqual([])
  })
})
