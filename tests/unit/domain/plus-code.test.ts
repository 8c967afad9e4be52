import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  areaOfPlusCode,
  encodePlusCode,
  fullPlusCode,
  isFullPlusCode,
  isShortPlusCode,
  pointOfPlusCode,
} from '#lib/domain/plus-code.ts'

// Published test values: google/open-location-code, test_data (validityTests.csv, decoding.csv, shortCodeTests.csv).
describe('plus codes, by the published test values', () => {
  test.each([
    ['8FWC2345+G6', 'full'],
    ['8FWC2345+G6G', 'full'],
    ['8fwc2345+', 'full'],
    ['8FWCX400+', 'full'],
    ['849VGJQF+VX7QR3J', 'full'],
    ['849VGJQF+VX7QR3JW', 'full'],
    ['WC2345+G6g', 'short'],
    ['2345+G6', 'short'],
    ['45+G6', 'short'],
    ['+G6', 'short'],
    ['G+', 'none'],
    ['+', 'none'],
    ['8FWC2345+G', 'none'],
    ['8FWC2_45+G6', 'none'],
    ['8FWC2η45+G6', 'none'],
    ['8FWC2345+G6+', 'none'],
    ['8FWC2345G6+', 'none'],
    ['8FWC2300+G6', 'none'],
    ['WC2300+G6g', 'none'],
    ['WC2345+G', 'none'],
    ['WC2300+', 'none'],
    ['849VGJQF+VX7QR3U', 'none'],
    ['849VGJQF+VX7QR3JU', 'none'],
  ])('%s is %s', (code, kind) => {
    expect(isFullPlusCode(code) ? 'full' : isShortPlusCode(code) ? 'short' : 'none').toBe(kind)
  })

  test.each([
    ['7FG49Q00+', 20.35, 2.75, 20.4, 2.8],
    ['7FG49QCJ+2V', 20.37, 2.782125, 20.370125, 2.78225],
    ['7FG49QCJ+2VX', 20.3701, 2.78221875, 20.370125, 2.78225],
    ['7FG49QCJ+2VXGJ', 20.370113, 2.782234375, 20.370114, 2.78223632813],
    ['8FVC2222+22', 47, 8, 47.000125, 8.000125],
    ['4VCPPQGP+Q9', -41.273125, 174.785875, -41.273, 174.786],
    ['62G20000+', 0, -180, 1, -179],
    ['22220000+', -90, -180, -89, -179],
    ['CFX3X2X2+X2', 89.999875, 1, 90, 1.000125],
    ['84000000+', 30, -140, 50, -120],
    ['849VGJQF+VX7QR3J7QR3J', 37.53966912, -122.3750698242, 37.53966916, -122.3750697021],
  ])('%s is decoded', (code, south, west, north, east) => {
    const area = areaOfPlusCode(code)
    expect(area?.south).toBeCloseTo(south, 9)
    expect(area?.west).toBeCloseTo(west, 9)
    expect(area?.north).toBeCloseTo(north, 9)
    expect(area?.east).toBeCloseTo(east, 9)
  })

  test.each([
    ['9C3W9QCJ+2VX', 51.3701125, -1.217765625, '+2VX'],
    ['9C3W9QCJ+2VX', 51.3708675, -1.217765625, 'CJ+2VX'],
    ['9C3W9QCJ+2VX', 51.3693575, -1.217765625, 'CJ+2VX'],
    ['9C3W9QCJ+2VX', 51.3701125, -1.218520625, 'CJ+2VX'],
    ['9C3W9QCJ+2VX', 51.3701125, -1.217010625, 'CJ+2VX'],
    ['9C3W9QCJ+2VX', 51.3852125, -1.217765625, '9QCJ+2VX'],
    ['9C3W9QCJ+2VX', 51.3550125, -1.217765625, '9QCJ+2VX'],
    ['9C3W9QCJ+2VX', 51.3701125, -1.232865625, '9QCJ+2VX'],
    ['9C3W9QCJ+2VX', 51.3701125, -1.202665625, '9QCJ+2VX'],
    ['8FJFW222+', 42.899, 9.012, '22+'],
    ['796RXG22+', 14.95125, -23.5001, '22+'],
    ['8FRCXGRF+PM', 47, 8.55, 'XGRF+PM'],
    ['CFX22222+22', 89.6, 0, '2222+22'],
    ['2CXXXXXX+XX', -81, 0, 'XXXXXX+XX'],
  ])('%s is recovered near %f, %f', (full, latitude, longitude, short) => {
    expect(fullPlusCode(short, { latitude, longitude })).toBe(full)
  })
})

describe('a plus code', () => {
  test('of a place holds the place', () => {
    const latitude = fc.double({ min: -89.9, max: 89.9, noNaN: true })
    const longitude = fc.double({ min: -179.9, max: 179.9, noNaN: true })
    fc.assert(
      fc.property(latitude, longitude, (lat, lon) => {
        const area = areaOfPlusCode(encodePlusCode({ latitude: lat, longitude: lon }))
        expect(area).toBeDefined()
        expect((area?.south ?? 91) - 1e-9 <= lat && lat <= (area?.north ?? -91) + 1e-9).toBe(true)
        expect((area?.west ?? 181) - 1e-9 <= lon && lon <= (area?.east ?? -181) + 1e-9).toBe(true)
      }),
    )
  })

  test('is read in small letters, and nothing else is', () => {
    expect(pointOfPlusCode('8fvc2222+22')).toEqual(pointOfPlusCode('8FVC2222+22'))
    expect([pointOfPlusCode('Fenmoor'), fullPlusCode('Fenmoor', { latitude: 0, longitude: 0 })]).toEqual([
      undefined,
      undefined,
    ])
  })
})
