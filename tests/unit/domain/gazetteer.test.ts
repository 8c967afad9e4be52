import { describe, expect, it } from 'vitest'
import { placeForm } from '#lib/domain/gazetteer.ts'

const typed = {
  name: ' Fenmoor ',
  kind: 'village',
  alsoCalled: 'the Fen;; Fen',
  latitude: '54,25',
  longitude: '-3.1',
}

describe('a place as it is typed', () => {
  it('is read with its words and degrees', () => {
    expect(placeForm.parse(typed)).toEqual({
      name: 'Fenmoor',
      kind: 'village',
      alsoCalled: ['the Fen', 'Fen'],
      latitude: 54.25,
      longitude: -3.1,
    })
  })

  it.each([
    ['name', ' '],
    ['kind', 'hamlet'],
    ['latitude', '90.01'],
    ['longitude', 'west'],
    ['alsoCalled', 'x'.repeat(81)],
  ])('is refused for its %s', (field, value) => {
    expect(placeForm.safeParse({ ...typed, [field]: value }).success).toBe(false)
  })
})
