import { describe, expect, test } from 'vitest'
import { freePlaces, placesBeside } from '#lib/domain/free-place.ts'
import type { HousingType } from '#lib/domain/housing.ts'
import { aloneKey, arrivalKey, type PlaceNeed } from '#lib/domain/need.ts'
import type { ClaimState, EnclosureState, NetworkState } from '#lib/domain/network-state.ts'

const HERE = 1
const NOON = new Date('2026-11-25T12:00:00Z')
const BEFORE = new Date('2026-11-25T08:00:00Z')
const EVENING = new Date('2026-11-25T18:00:00Z')

const KESTREL: PlaceNeed = {
  stage: 'restricted activity',
  housing: ['hospital-cage', 'indoor-pen'],
  needsIsolation: false,
  sizeRank: 3,
  flightLengthM: 4.9,
  features: [],
  company: 'kestrels',
  companyKey: 'kestrels',
  stock: {},
  preys: 'predator',
}

function enclosure(
  id: number,
  housing: HousingType = 'hospital-cage',
  change: Partial<EnclosureState> = {},
): EnclosureState {
  return {
    id,
    centreId: HERE,
    roomId: 10,
    roomName: 'Ward',
    predatorsApart: false,
    name: `E${id}`,
    housing,
    sizeRank: 3,
    lengthM: 0,
    features: [],
    turnaroundMin: 60,
    stocking: { kestrels: 2, 'tawny-owls': 1 },
    ...change,
  }
}

function stay(enclosureId: number, placeNo: number | null, change: Partial<ClaimState> = {}): ClaimState {
  return {
    id: 1,
    kind: 'stay',
    enclosureId,
    placeNo,
    companyKey: 'kestrels',
    roomApartId: null,
    preys: 'predator',
    casualtyId: 1,
    startsAt: BEFORE,
    endsAt: null,
    expectedAt: null,
    expiresAt: null,
    ...change,
  }
}

function free(
  enclosures: EnclosureState[],
  claims: ClaimState[] = [],
  need = KESTREL,
  closures: NetworkState['closures'] = [],
) {
  return freePlaces({ enclosures, claims, closures }, HERE, need, NOON).map(
    place => `${place.name}/${place.placeNo}`,
  )
}

describe('places beside an animal', () => {
  const beside = (claims: ClaimState[], change: Partial<EnclosureState> = {}) =>
    placesBeside(
      { enclosures: [enclosure(1, 'indoor-pen', { stocking: { kestrels: 4 }, ...change })], claims },
      { casualtyId: 1, company: 'kestrels' },
      NOON,
    )
  const other = (placeNo: number, change: Partial<ClaimState> = {}) =>
    stay(1, placeNo, { casualtyId: 9, ...change })

  test('are what stocking allows, less who is in and who is promised one', () => {
    expect(beside([stay(1, 1)])).toBe(3)
    expect(beside([stay(1, 1), other(2), other(3, { kind: 'hold', startsAt: EVENING })])).toBe(1)
    expect(beside([stay(1, 1), other(2, { endsAt: NOON }), other(3, { enclosureId: 2 })])).toBe(3)
    expect(beside([stay(1, 1), other(2), other(3), other(4), other(5)])).toBe(0)
  })

  test('are none where it has none itself, is shut in, or its company may not be', () => {
    expect(beside([other(1)])).toBe(0)
    expect(beside([stay(1, 1, { startsAt: EVENING })])).toBe(0)
    const shut = { kind: 'closure', placeNo: null, casualtyId: null } as const
    expect(beside([stay(1, 1), stay(1, null, shut)])).toBe(0)
    expect(beside([stay(1, 1), stay(1, null, { ...shut, startsAt: EVENING })])).toBe(3)
    expect(beside([stay(1, 1)], { stocking: {} })).toBe(0)
  })
})

describe('the order', () => {
  test('is preferred housing, then company, then the smallest that is large enough, then the oldest', () => {
    const enclosures = [
      enclosure(1, 'indoor-pen'),
      enclosure(2, 'hospital-cage', { sizeRank: 5 }),
      enclosure(4),
      enclosure(3),
      enclosure(5, 'hospital-cage', { sizeRank: 9 }),
    ]
    expect(free(enclosures, [stay(5, 1)])).toEqual([
      'E5/2',
      'E3/1',
      'E3/2',
      'E4/1',
      'E4/2',
      'E2/1',
      'E2/2',
      'E1/1',
      'E1/2',
    ])
  })

  test('takes the shortest aviary that is long enough, whatever its rank', () => {
    const flying: PlaceNeed = { ...KESTREL, stage: 'unlimited activity', housing: ['flight-aviary'] }
    const aviaries = [
      enclosure(1, 'flight-aviary', { lengthM: 15, sizeRank: 1 }),
      enclosure(2, 'flight-aviary', { lengthM: 5, sizeRank: 9 }),
      enclosure(3, 'flight-aviary', { lengthM: 4.8, sizeRank: 9 }),
    ]
    expect(free(aviaries, [], flying)).toEqual(['E2/1', 'E2/2', 'E1/1', 'E1/2'])
  })
})

describe('a place is free', () => {
  test('at this centre only, and where the enclosure fits', () => {
    const elsewhere = enclosure(1, 'hospital-cage', { centreId: 2 })
    const tooSmall = enclosure(2, 'hospital-cage', { sizeRank: 2 })
    const forOthers = enclosure(3, 'hospital-cage', { stocking: { thrushes: 4 } })
    expect(free([elsewhere, tooSmall, forOthers, enclosure(4, 'isolation'), enclosure(5)])).toEqual([
      'E5/1',
      'E5/2',
    ])
  })

  test('beside its own company, never beside another', () => {
    expect(free([enclosure(1)], [stay(1, 2)])).toEqual(['E1/1'])
    expect(free([enclosure(1)], [stay(1, 1, { companyKey: 'tawny-owls' })])).toEqual([])
    expect(free([enclosure(1)], [stay(1, 1), stay(1, 2)])).toEqual([])
  })

  test('when whoever is in leaves by then, not when somebody comes later', () => {
    expect(free([enclosure(1)], [stay(1, 1, { endsAt: NOON })])).toEqual(['E1/1', 'E1/2'])
    expect(free([enclosure(1)], [stay(1, 1, { endsAt: EVENING })])).toEqual(['E1/2'])
    expect(free([enclosure(1)], [stay(1, 1, { kind: 'hold', startsAt: EVENING })])).toEqual(['E1/2'])
  })

  test('once it is dry: its own company may use the places beside, another waits', () => {
    const drying = (endsAt: Date, companyKey: string) =>
      stay(1, 1, { kind: 'drying', casualtyId: null, preys: null, companyKey, endsAt })
    expect(free([enclosure(1)], [drying(EVENING, 'kestrels')])).toEqual(['E1/2'])
    expect(free([enclosure(1)], [drying(EVENING, 'tawny-owls')])).toEqual([])
    expect(free([enclosure(1)], [drying(NOON, 'tawny-owls')])).toEqual(['E1/1', 'E1/2'])
  })

  test('only where no claim is on the whole enclosure, its own company or not', () => {
    expect(free([enclosure(1), enclosure(2)], [stay(1, null)])).toEqual(['E2/1', 'E2/2'])
  })

  test('unless the enclosure is shut, now or later, but not when it was', () => {
    const shut = (startsAt: Date, endsAt: Date | null) => [
      { enclosureId: 1, startsAt, endsAt, reason: 'roof' },
    ]
    expect(free([enclosure(1)], [], KESTREL, shut(BEFORE, null))).toEqual([])
    expect(free([enclosure(1)], [], KESTREL, shut(EVENING, null))).toEqual([])
    expect(free([enclosure(1)], [], KESTREL, shut(BEFORE, NOON))).toEqual(['E1/1', 'E1/2'])
    expect(free([enclosure(1), enclosure(2)], [], KESTREL, shut(BEFORE, null))).toEqual(['E2/1', 'E2/2'])
  })
})

describe('animals that must be apart', () => {
  test('one that is alone has one place, in an empty enclosure', () => {
    const alone = { ...KESTREL, companyKey: aloneKey('7') }
    expect(free([enclosure(1)], [], alone)).toEqual(['E1/1'])
    expect(free([enclosure(1)], [stay(1, 2)], alone)).toEqual([])
    expect(free([enclosure(1)], [stay(1, 1, { companyKey: aloneKey('8') })])).toEqual([])
  })

  test('one in quarantine is beside its own arrival only', () => {
    const quarantined: PlaceNeed = {
      ...KESTREL,
      stage: 'quarantine',
      housing: ['isolation'],
      needsIsolation: true,
      companyKey: arrivalKey('3', 'kestrels'),
    }
    const ward = [enclosure(1, 'isolation')]
    expect(free(ward, [stay(1, 1, { companyKey: arrivalKey('3', 'kestrels') })], quarantined)).toEqual([
      'E1/2',
    ])
    expect(free(ward, [stay(1, 1, { companyKey: arrivalKey('4', 'kestrels') })], quarantined)).toEqual([])
  })

  test('predator and prey share no room that is marked, and any other', () => {
    const marked = enclosure(1, 'hospital-cage', { roomId: 10, predatorsApart: true })
    const prey = stay(2, 1, { companyKey: 'thrushes', roomApartId: 10, preys: 'prey' })
    expect(free([marked], [prey])).toEqual([])
    expect(free([marked], [{ ...prey, preys: 'predator' }])).toEqual(['E1/1', 'E1/2'])
    expect(free([marked], [{ ...prey, roomApartId: 20 }])).toEqual(['E1/1', 'E1/2'])
    expect(free([marked], [prey], { ...KESTREL, preys: null })).toEqual(['E1/1', 'E1/2'])
    expect(free([{ ...marked, predatorsApart: false }], [{ ...prey, roomApartId: null }])).toEqual([
      'E1/1',
      'E1/2',
    ])
  })
})
