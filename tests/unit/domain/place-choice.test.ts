import { describe, expect, it } from 'vitest'
import type { PlaceNeed } from '#lib/domain/need.ts'
import { placeChoices } from '#lib/domain/place-choice.ts'
import {
  at,
  enclosureState,
  holdFor,
  networkState,
  residentState,
  SHORE,
} from '#tests/support/network-state.ts'

const NOON = at(0, 12)
const NEED: PlaceNeed = {
  stage: 'restricted activity',
  housing: ['hospital-cage'],
  needsIsolation: false,
  sizeRank: 3,
  flightLengthM: null,
  features: [],
  company: 'thrushes',
  companyKey: 'thrushes',
  stock: { 'hospital-cage': 3 },
  preys: 'prey',
}
const me = { at: NOON, casualtyId: 7 }

const stay = (casualtyId: number, enclosureId: number, companyKey = 'thrushes', placeNo = 1) => ({
  ...holdFor(casualtyId, enclosureId),
  kind: 'stay' as const,
  companyKey,
  placeNo,
  startsAt: at(-2, 8),
  expectedAt: null,
  expiresAt: null,
})

describe('the enclosures of a centre for one animal', () => {
  it('begin with those that fit and are free; each other one has its reasons', () => {
    const choices = placeChoices(networkState(), SHORE, NEED, me)
    expect(choices.map(one => [one.enclosureId, one.state, one.free])).toEqual([
      [11, 'free', 3],
      [12, 'free', 3],
      [13, 'does not fit', 0],
    ])
    expect(choices[2]?.misfits).toEqual([
      { rule: 'wrong housing', has: 'intensive-care', wants: ['hospital-cage'] },
    ])
  })

  it('name those who are in one that is full, and those who may not share', () => {
    const state = networkState({
      enclosures: [
        enclosureState(11, SHORE, 'hospital-cage', { stocking: { thrushes: 1 } }),
        enclosureState(12, SHORE, 'hospital-cage'),
      ],
      claims: [stay(8, 11), stay(9, 12, 'alone:9')],
      residents: [residentState(8), residentState(9)],
    })
    const choices = placeChoices(state, SHORE, NEED, me)
    expect(choices.map(({ enclosureId, state: found, inTheWay }) => [enclosureId, found, inTheWay])).toEqual([
      [11, 'in use', [{ kind: 'full', references: ['heron-8'], until: null }]],
      [12, 'in use', [{ kind: 'company', references: ['heron-9'], until: null }]],
    ])
  })

  it('say until when one is shut or dries, and for whom one is kept', () => {
    const drying = {
      ...stay(0, 12),
      kind: 'drying' as const,
      casualtyId: null,
      placeNo: null,
      endsAt: at(0, 15),
    }
    const state = networkState({
      closures: [{ enclosureId: 11, startsAt: at(-1, 8), endsAt: null, reason: 'netting' }],
      claims: [drying, { ...holdFor(9, 12), companyKey: 'alone:9' }],
      residents: [residentState(9)],
    })
    const [first, second] = placeChoices(state, SHORE, NEED, me)
    const byId = new Map([first, second].map(one => [one?.enclosureId, one?.inTheWay]))
    expect(byId.get(11)).toEqual([{ kind: 'closed', references: [], until: null }])
    expect(byId.get(12)).toEqual([
      { kind: 'drying', references: [], until: at(0, 15) },
      { kind: 'kept', references: ['heron-9'], until: null },
    ])
  })

  it('never put an animal in its own way', () => {
    const mine = networkState({
      claims: [stay(7, 11, 'alone:7'), { ...holdFor(7, 12), companyKey: 'alone:7' }],
    })
    const choices = placeChoices(mine, SHORE, { ...NEED, companyKey: 'alone:7' }, me)
    expect(choices.filter(one => one.state === 'free').map(one => one.enclosureId)).toEqual([11, 12])
  })

  it('name whom it hunts, or who hunts it, in a room that keeps them apart', () => {
    const state = networkState({
      enclosures: [
        enclosureState(11, SHORE, 'hospital-cage', { predatorsApart: true }),
        enclosureState(12, SHORE, 'hospital-cage', { predatorsApart: true }),
      ],
      claims: [{ ...stay(9, 12, 'hawks'), roomApartId: SHORE * 10, preys: 'predator' }],
      residents: [residentState(9)],
    })
    const choice = placeChoices(state, SHORE, NEED, me).find(one => one.enclosureId === 11)
    expect(choice).toMatchObject({
      state: 'in use',
      inTheWay: [{ kind: 'room', references: ['heron-9'], until: null }],
    })
  })
})
