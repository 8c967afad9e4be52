import { describe, expect, it } from 'vitest'
import { newSeasonForm, seasonForm } from '#lib/domain/season-form.ts'

const typed = { opens: '11-01', closes: '03-20', grams: '600', mark: 'M', note: ' from memory ' }

describe('the form of a season', () => {
  it('reads days of the year, a weight with a comma, and trims what is said', () => {
    expect(seasonForm.parse({ ...typed, grams: '600,5' })).toEqual({
      ...typed,
      grams: 600.5,
      note: 'from memory',
    })
    expect(seasonForm.parse({ ...typed, grams: '' }).grams).toBeNull()
  })

  it.each([
    ['opens', { opens: '02-30' }],
    ['closes', { closes: '15 September' }],
    ['grams', { grams: '0' }],
    ['mark', { mark: ' ' }],
    ['kind', { kind: 'moult' }],
    ['species', { species: '' }],
  ])('refuses what the table would refuse: %s', (field, change) => {
    const read = newSeasonForm.safeParse({ species: 'hedgehog', kind: 'hibernation', ...typed, ...change })
    expect(new Set(read.error?.issues.map(({ path }) => path[0]))).toEqual(new Set([field]))
  })
})
