import { describe, expect, test } from 'vitest'
import { CARE_STAGES, FLIGHT_STEPS_M, HOUSING_TYPES, isOrderedByFlight } from '#lib/domain/housing.ts'
import { referenceRows } from '#tests/support/reference.ts'

describe('housing', () => {
  test('has the types and stages of the reference, and no other', () => {
    const types = referenceRows('keys').filter(row => row['kind'] === 'housing')
    expect([...HOUSING_TYPES].sort()).toEqual(types.map(row => row['key'] ?? '').sort())
    const stages = new Set(referenceRows('plans').map(row => row['stage']))
    expect(CARE_STAGES.filter(stage => !stages.has(stage))).toEqual([])
  })

  test('orders aviaries by flight and everything else by size', () => {
    expect(HOUSING_TYPES.filter(isOrderedByFlight)).toEqual(['sheltered-aviary', 'flight-aviary'])
  })

  test('has flight steps that rise to the longest a species of the reference needs', () => {
    expect([...FLIGHT_STEPS_M]).toEqual([...FLIGHT_STEPS_M].sort((a, b) => a - b))
    const needed = referenceRows('species').map(row => Number(row['flight_length_min_m'] || 0))
    expect(Math.max(...needed)).toBe(FLIGHT_STEPS_M.at(-1))
  })
})
