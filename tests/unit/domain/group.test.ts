import { describe, expect, it } from 'vitest'
import { type Beside, cameFrom, chooseSome, joinRefusal, someInput } from '#lib/domain/group.ts'

const one = (change: Partial<Beside>): Beside => ({
  id: 1,
  reference: 'x',
  arrivalId: 1,
  batchId: 1,
  memberNo: 1,
  toldBy: null,
  placeNo: null,
  species: 'sparrow',
  company: 'seedeaters-small',
  isAlone: false,
  isSuspect: false,
  centreId: 2,
  enclosureId: null,
  isIsolation: false,
  ...change,
})
const other = (change: Partial<Beside> = {}) => one({ id: 2, arrivalId: 2, batchId: 2, ...change })

describe('whom a count means', () => {
  const three = [one({ id: 1 }), one({ id: 2, toldBy: 'ring' }), one({ id: 3 })]

  it('is the last that nobody can tell apart', () => {
    expect(chooseSome(three, 1)?.map(({ id }) => id)).toEqual([3])
    expect(chooseSome(three, 2)?.map(({ id }) => id)).toEqual([1, 3])
    expect(chooseSome(three, 3)).toBeUndefined()
  })

  it('needs a number or places', () => {
    expect(someInput.safeParse({ count: '' }).success).toBe(false)
    expect(someInput.parse({ count: '', places: ['2'] })).toEqual({ count: undefined, places: [2] })
  })
})

describe('putting together', () => {
  it.each([
    ['group-elsewhere', { centreId: 3 }],
    ['group-already', { batchId: 1 }],
    ['group-other-species', { species: 'robin' }],
    ['group-other-company', { company: 'thrushes' }],
    ['group-alone', { isAlone: true }],
    ['group-in-isolation', { isIsolation: true }],
    ['group-suspect', { isSuspect: true }],
    [undefined, {}],
  ])('%s', (rule, change) => {
    expect(joinRefusal([one({})], [other(change)])).toBe(rule)
  })

  it('an arrival is with itself in isolation, and single ones have no batch in common', () => {
    expect(joinRefusal([one({})], [other({ arrivalId: 1, isIsolation: true })])).toBeUndefined()
    expect(joinRefusal([one({ batchId: null })], [other({ batchId: null })])).toBeUndefined()
    expect(joinRefusal([one({ batchId: null })], [one({ batchId: null })])).toBe('group-already')
  })
})

describe('where they came from', () => {
  const from = (batchId: number | null, memberNo: number | null) => ({ batchId, memberNo })

  it('is one group, or for a single one none', () => {
    expect(cameFrom([from(2, 1), from(2, 3)])).toEqual([from(2, 1), from(2, 3)])
    expect(cameFrom([from(null, null)])).toEqual([from(null, null)])
  })

  it('is not known where they came from several, or were there from the first', () => {
    expect(cameFrom([from(2, 1), from(3, 1)])).toBeUndefined()
    expect(cameFrom([from(2, 1), null])).toBeUndefined()
    expect(cameFrom([null])).toBeUndefined()
    expect(cameFrom([from(null, null), from(null, null)])).toBeUndefined()
  })
})
