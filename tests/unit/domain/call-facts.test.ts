import { describe, expect, test } from 'vitest'
import { callFacts, emptyCallFacts, whatIsMissing } from '#lib/domain/call-facts.ts'
import { ANIMAL_TYPED_MAX, CONDITIONS_MAX, COUNT_MAX, NOTES_MAX } from '#lib/domain/call-limits.ts'
import { listChangedFacts } from '#lib/domain/standing.ts'

const where = { how: 'gazetteer', latitude: 54, longitude: -3, name: 'Fenmoor', placeId: 1 } as const

describe('a call sheet', () => {
  test('is one while it is empty', () => {
    expect(emptyCallFacts()).toMatchObject({
      species: null,
      count: 1,
      age: 'unknown',
      isCaught: true,
      hasFinder: true,
    })
    expect(callFacts.parse(emptyCallFacts())).toEqual(emptyCallFacts())
  })

  test('needs three facts for a first answer, in order', () => {
    const facts = emptyCallFacts()
    expect(whatIsMissing(facts)).toEqual(['animal', 'where', 'wrong'])
    expect(whatIsMissing({ ...facts, species: 'kestrel' })).toEqual(['where', 'wrong'])
    expect(
      whatIsMissing({ species: 'kestrel', where, conditions: [{ slug: 'wing-fracture', severity: null }] }),
    ).toEqual([])
  })

  test('may say that it was seen and not caught, and that nobody is there', () => {
    expect(callFacts.parse({ isCaught: false, hasFinder: false })).toMatchObject({
      isCaught: false,
      hasFinder: false,
    })
  })

  test.each([
    [{ count: 0 }],
    [{ count: COUNT_MAX + 1 }],
    [{ animalTyped: 'x'.repeat(ANIMAL_TYPED_MAX + 1) }],
    [{ notes: 'x'.repeat(NOTES_MAX + 1) }],
    [{ conditions: Array.from({ length: CONDITIONS_MAX + 1 }, () => ({ slug: 'wound' })) }],
    [{ where: { ...where, latitude: 91 } }],
    [{ answers: { bitten: 'perhaps' } }],
    [{ dangers: ['boredom'] }],
    [{ urgency: 'soon' }],
    [{ somethingElse: 1 }],
  ])('refuses %j', wrong => {
    expect(callFacts.safeParse(wrong).success).toBe(false)
  })

  test('takes its limits', () => {
    expect(callFacts.safeParse({ count: COUNT_MAX, notes: 'x'.repeat(NOTES_MAX) }).success).toBe(true)
  })
})

test('options follow the facts that rank them, not the notes', () => {
  const facts = emptyCallFacts()
  expect(listChangedFacts(facts, { ...facts, notes: 'rang twice', finderName: 'A. Finder' })).toEqual([])
  expect(listChangedFacts(facts, { ...facts, species: 'kestrel', count: 2 })).toEqual(['species', 'count'])
})
