import { describe, expect, test } from 'vitest'
import { outsidePlace, practice } from '#lib/domain/practice.ts'

const harbour = {
  name: 'Harbour Vets',
  phone: '01632 960 010',
  latitude: 54,
  longitude: -3,
  hours: [],
  hasNightCover: false,
  nightPhone: null,
  sees: ['owls'],
  note: '',
}

describe('a practice', () => {
  test('is read as it was written', () => {
    expect(practice.parse(harbour)).toEqual(harbour)
  })

  test('with night cover has a number', () => {
    expect(practice.safeParse({ ...harbour, hasNightCover: true }).success).toBe(false)
    expect(practice.safeParse({ ...harbour, hasNightCover: true, nightPhone: '01632 960 011' }).success).toBe(
      true,
    )
  })
})

test('a place outside says what it takes and when', () => {
  const place = { name: 'Swan Line', phone: '01632 960 020', latitude: 54, longitude: -3, takes: ['swans'] }
  expect(outsidePlace.safeParse({ ...place, takesWords: 'Swans', hoursWords: 'Day and night' }).success).toBe(
    true,
  )
  expect(outsidePlace.safeParse({ ...place, takesWords: '', hoursWords: 'Day and night' }).success).toBe(
    false,
  )
})
