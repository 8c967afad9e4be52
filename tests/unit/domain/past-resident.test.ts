import { describe, expect, it } from 'vitest'
import { type PastAnimal, residentsAt } from '#lib/domain/past-resident.ts'
import { at, plannedStage } from '#tests/support/network-state.ts'

const animal = (change: Partial<PastAnimal> = {}): PastAnimal => ({
  id: 7,
  reference: 'heron-7',
  species: 'blackbird',
  age: 'adult',
  company: 'thrushes',
  isAlone: false,
  arrivalId: 7,
  planIds: [],
  admittedAt: at(0, 8),
  stages: [
    plannedStage(1, 'restricted activity', 'hospital-cage'),
    plannedStage(2, 'limited activity', 'sheltered-aviary'),
  ],
  keepings: [
    { keeper: 'finder', centreId: null, since: at(0, 8) },
    { keeper: 'driver', centreId: null, since: at(0, 9) },
    { keeper: 'centre', centreId: 2, since: at(0, 10) },
    { keeper: 'nobody', centreId: null, since: at(20, 12) },
  ],
  facts: [
    { kind: 'began', no: 1, at: at(0, 10) },
    { kind: 'ready', no: 1, at: at(6, 10) },
    { kind: 'began', no: 2, at: at(8, 10) },
    { kind: 'ready', no: 2, at: at(18, 10) },
  ],
  words: [],
  ...change,
})
const keeperAt = (when: Date, of = animal()) => residentsAt([of], when).map(({ keeper }) => keeper)

describe('who was in care', () => {
  it('is whoever a driver, a practice or a centre had, from the instant on', () => {
    expect(keeperAt(at(0, 7))).toEqual([])
    expect(keeperAt(at(0, 8))).toEqual([])
    expect(keeperAt(at(0, 9))).toEqual(['driver'])
    expect(keeperAt(at(0, 10))).toEqual(['centre'])
    expect(keeperAt(at(17, 0))).toEqual(['centre'])
    expect(keeperAt(at(20, 12), animal({ facts: [] }))).toEqual([])
    expect(keeperAt(at(20, 11), animal({ facts: [] }))).toEqual(['centre'])
  })

  it('comes with the stage of that time, and no place in the centre', () => {
    const [early] = residentsAt([animal()], at(3, 0))
    expect(early).toMatchObject({
      centreId: 2,
      enclosureId: null,
      since: at(0, 10),
      began: { no: 1, at: at(0, 10) },
      ready: null,
    })
    expect(early).not.toHaveProperty('keepings')
    expect(early).not.toHaveProperty('facts')
    expect(residentsAt([animal()], at(7, 0))[0]).toMatchObject({ began: { no: 1 }, ready: { no: 1 } })
    expect(residentsAt([animal()], at(9, 0))[0]).toMatchObject({ began: { no: 2 }, ready: { no: 1 } })
  })

  it('is the newest stage in whatever order facts were told', () => {
    const facts = [...animal().facts].reverse()
    expect(residentsAt([animal({ facts })], at(9, 0))).toEqual(residentsAt([animal()], at(9, 0)))
  })

  it('is nobody who was ready in its last stage, and again somebody whose later stage began', () => {
    expect(keeperAt(at(18, 9))).toEqual(['centre'])
    expect(keeperAt(at(18, 10))).toEqual([])
    const again = animal({ facts: [...animal().facts, { kind: 'began', no: 3, at: at(19, 9) }] })
    expect(keeperAt(at(19, 10), again)).toEqual(['centre'])
  })

  it("comes with the newest of a vet's words on its stage that was said by then", () => {
    const words = [
      { no: 1, at: at(2, 10), inDays: 14 },
      { no: 1, at: at(4, 10), inDays: 7 },
      { no: 2, at: at(9, 10), inDays: 3 },
    ]
    const wordAt = (when: Date) => residentsAt([animal({ words })], when)[0]?.word
    expect(wordAt(at(2, 0))).toBeNull()
    expect(wordAt(at(3, 0))).toEqual(words[0])
    expect(wordAt(at(5, 0))).toEqual(words[1])
    expect(wordAt(at(8, 11))).toBeNull()
    expect(wordAt(at(10, 0))).toEqual(words[2])
  })

  it('has no stage where none is on record', () => {
    expect(residentsAt([animal({ facts: [], stages: [] })], at(3, 0))[0]).toMatchObject({
      stages: [],
      began: null,
      ready: null,
    })
  })
})
