import { describe, expect, it } from 'vitest'
import { type Beside, cameFrom, chooseSome, joinableWith, joinRefusal, someInput } from '#lib/domain/group.ts'

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

describe('whom they may be put together with', () => {
  const single = (id: number, change: Partial<Beside> = {}) =>
    one({ id, reference: `r${id}`, arrivalId: id, batchId: null, memberNo: null, enclosureId: 5, ...change })
  const joiners = [one({ id: 1, enclosureId: 1 }), one({ id: 2, enclosureId: 1 })]
  const ids = (all: readonly Beside[], room = 9) =>
    joinableWith(joiners, all, () => room).map(found => found.withId)

  it('are those that would not be refused, and none of a group of whom one would be', () => {
    const group = [one({ id: 7, arrivalId: 7, batchId: 4 }), one({ id: 8, arrivalId: 7, batchId: 4 })]
    expect(ids([...joiners, single(3), single(4, { species: 'robin' }), ...group])).toEqual([3, 7])
    expect(ids([...group.slice(0, 1), one({ id: 8, arrivalId: 7, batchId: 4, isSuspect: true })])).toEqual([])
    expect(
      ids([single(3, { centreId: 9 }), single(4, { isAlone: true }), single(5, { isIsolation: true })]),
    ).toEqual([])
  })

  it('come in order: beside them already, with room for all, with room for some; without room not at all', () => {
    const all = [
      single(3),
      single(4, { enclosureId: 6 }),
      single(5, { enclosureId: 1 }),
      single(6, { enclosureId: 7 }),
    ]
    const free: Readonly<Record<number, number>> = { 3: 1, 4: 2, 6: 0 }
    const found = joinableWith(joiners, all, ({ casualtyId }) => free[casualtyId] ?? 0)
    expect(found.map(({ withId, room }) => [withId, room])).toEqual([
      [5, null],
      [4, null],
      [3, 1],
    ])
  })

  it('count only those whom a number can mean, where not all find room', () => {
    const told = [
      one({ id: 1, enclosureId: 1, toldBy: 'ring 4' }),
      one({ id: 2, enclosureId: 1, toldBy: 'ring 5' }),
    ]
    expect(joinableWith(told, [single(3)], () => 1)).toEqual([])
    expect(joinableWith(told, [single(3)], () => 2)).toMatchObject([{ withId: 3, room: null }])
    expect(joinableWith(joiners, [single(3, { enclosureId: null })], () => 0)).toMatchObject([{ room: null }])
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
