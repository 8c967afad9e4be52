import { describe, expect, test } from 'vitest'
import {
  findWhere,
  parseCoordinates,
  roadBetween,
  roadBetweenCentres,
  searchPlaces,
  straightKm,
} from '#lib/domain/place.ts'

const PLACES = [
  { id: 1, name: 'Fenmoor', kind: 'town', also_called: ['the moor'], latitude: 51.37, longitude: -1.22 },
  { id: 2, name: 'Fenmoor Bridge', kind: 'landmark', also_called: [], latitude: 51.4, longitude: -1.2 },
  { id: 3, name: 'Marram Sands', kind: 'water', also_called: ['the sands'], latitude: 52, longitude: -1 },
  { id: 4, name: 'Marram Point', kind: 'landmark', also_called: [], latitude: 52.1, longitude: -1.1 },
]

describe('coordinates', () => {
  test.each([
    ['54.5, -3.25'],
    ['54.5 -3.25'],
    ['54.5N 3.25W'],
    ['N54.5 W3.25'],
    ["54°30'N 3°15'W"],
    ['54° 30′ 0″ N, 3° 15′ 0″ W'],
    ['54°30\'00"N3°15\'00"W'],
    ['3.25W, 54.5N'],
    ["54 30.0'N 3 15.0'W"],
  ])('%s is 54.5 north, 3.25 west', text => {
    const point = parseCoordinates(text)
    expect(point?.latitude).toBeCloseTo(54.5, 9)
    expect(point?.longitude).toBeCloseTo(-3.25, 9)
  })

  test.each([
    ['A5 12'],
    ['12 34'],
    ['95.1, 3.2'],
    ['54.5N 3.2N'],
    ["54°70'N 3°15'W"],
    ['-54.5S 3.2E'],
    ['Fenmoor'],
    [''],
  ])('%s are none', text => {
    expect(parseCoordinates(text)).toBeUndefined()
  })
})

describe('where', () => {
  test('is a gazetteer place by its name', () => {
    expect(findWhere('marram sands', PLACES)).toMatchObject({ how: 'gazetteer', placeId: 3 })
    expect(findWhere('fenmoor', PLACES)).toMatchObject({ how: 'gazetteer', placeId: 1 })
    expect(findWhere('the sands', PLACES)).toMatchObject({ placeId: 3 })
  })

  test('stays open where a word fits several places alike', () => {
    expect(findWhere('marram', PLACES)).toBeUndefined()
    expect(searchPlaces('marram', PLACES).map(hit => hit.item.id)).toEqual([4, 3])
  })

  test('is a short plus code beside a place named or near', () => {
    const beside = findWhere('9QCJ+2V Fenmoor', PLACES)
    expect(beside?.how).toBe('plus code')
    expect(beside?.latitude).toBeCloseTo(51.3700625, 6)
    expect(findWhere('9QCJ+2V', PLACES, PLACES[0])).toEqual(beside)
    expect(findWhere('9QCJ+2V', PLACES)).toBeUndefined()
    expect(findWhere('9C3W9QCJ+2V', PLACES)).toEqual(beside)
  })

  test('is coordinates as they are', () => {
    expect(findWhere('51.5, -1.25', PLACES)).toEqual({ how: 'coordinates', latitude: 51.5, longitude: -1.25 })
  })

  test('is not guessed', () => {
    expect(findWhere('behind the chip shop', PLACES)).toBeUndefined()
  })
})

describe('distance', () => {
  // A degree of latitude is a 360th of the circle: 2 pi 6371.0088 / 360 = 111.195 km.
  test('is the great circle', () => {
    expect(straightKm({ latitude: 50, longitude: 5 }, { latitude: 51, longitude: 5 })).toBeCloseTo(111.195, 3)
    expect(straightKm({ latitude: 0, longitude: 0 }, { latitude: 0, longitude: 180 })).toBeCloseTo(
      20015.114,
      2,
    )
    expect(straightKm({ latitude: 50, longitude: 5 }, { latitude: 50, longitude: 5 })).toBe(0)
  })

  test('by road is 1.3 times the straight line at 50 km/h', () => {
    const road = roadBetween({ latitude: 50, longitude: 5 }, { latitude: 51, longitude: 5 })
    expect(road.km).toBeCloseTo(144.5535, 3)
    expect(road.minutes).toBeCloseTo((144.5535 / 50) * 60, 2)
  })

  test('follows the table between centres, also the other way round', () => {
    const a = { id: 1, latitude: 50, longitude: 5 }
    const b = { id: 2, latitude: 51, longitude: 5 }
    const table = [{ from: 1, to: 2, km: 200, minutes: 170 }]
    expect(roadBetweenCentres(a, b, table)).toEqual({ km: 200, minutes: 170 })
    expect(roadBetweenCentres(b, a, table)).toEqual({ km: 200, minutes: 170 })
    expect(roadBetweenCentres(a, b, [])).toEqual(roadBetween(a, b))
  })
})
