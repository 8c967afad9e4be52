import { expect, it } from 'vitest'
import { isOffered, offerOf } from '#lib/plan/offer.ts'
import {
  at,
  centreState,
  GROUP,
  HILL,
  holdFor,
  networkState,
  residentState,
  SHORE,
} from '#tests/support/network-state.ts'
import { referenceTrade } from '#tests/support/reference.ts'

const trade = referenceTrade()
const now = at(0, 12)
const hill = centreState(HILL, { offers: [{ group: GROUP, places: 2 }] })
const state = (change: Parameters<typeof networkState>[0] = {}) =>
  networkState({ centres: [centreState(SHORE), hill], ...change })
const left = (seen: ReturnType<typeof state>) => offerOf(hill, GROUP, seen, trade, now)

it('is what was offered, less who is on the way and who came since the count', () => {
  expect(left(state())).toEqual({ places: 2, left: 2 })
  expect(left(state({ claims: [holdFor(7, 21)] }))).toEqual({ places: 2, left: 1 })
  const came = [8, 9, 10].map(id => residentState(id, { centreId: HILL, since: at(0, 9) }))
  expect(left(state({ residents: came }))).toEqual({ places: 2, left: 0 })
  const longThere = [residentState(8, { centreId: HILL, since: at(-3, 9) })]
  expect(left(state({ residents: longThere }))).toEqual({ places: 2, left: 2 })
})

it('answers for an animal of its group, at that centre alone', () => {
  const resident = residentState(7)
  expect(isOffered(HILL, resident, { state: state(), trade }, now)).toBe(true)
  expect(isOffered(SHORE, resident, { state: state(), trade }, now)).toBe(false)
  expect(isOffered(99, resident, { state: state(), trade }, now)).toBe(false)
  const other = residentState(7, { species: 'kestrel' })
  expect(isOffered(HILL, other, { state: state(), trade }, now)).toBe(false)
})
