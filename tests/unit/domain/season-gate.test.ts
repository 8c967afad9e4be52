import { describe, expect, it } from 'vitest'
import { dayOfDate } from '#lib/domain/day.ts'
import { isWithin, outOfSeason, overwinterOf, type SpeciesSeason } from '#lib/domain/season-gate.ts'

const swallow: SpeciesSeason = {
  kind: 'migration',
  opens: '04-01',
  closes: '09-15',
  grams: null,
  mark: 'CP',
  note: '',
}
const hedgehog: SpeciesSeason = {
  kind: 'hibernation',
  opens: '11-01',
  closes: '03-20',
  grams: 600,
  mark: 'M',
  note: '',
}
const day = dayOfDate

describe('a season', () => {
  it('holds both its days, also over New Year and on 29 February', () => {
    expect(isWithin(swallow, day('2026-09-15'))).toBe(true)
    expect(isWithin(swallow, day('2026-09-16'))).toBe(false)
    expect(isWithin(hedgehog, day('2026-10-31'))).toBe(false)
    expect(isWithin(hedgehog, day('2026-11-01'))).toBe(true)
    expect(isWithin(hedgehog, day('2028-02-29'))).toBe(true)
    expect(isWithin(hedgehog, day('2027-03-21'))).toBe(false)
  })

  it('of migration stands against a release outside of it; hibernation stands against none', () => {
    expect(outOfSeason([hedgehog, swallow], day('2026-10-02'))).toBe(swallow)
    expect(outOfSeason([swallow], day('2026-06-01'))).toBeUndefined()
    expect(outOfSeason([hedgehog], day('2026-12-01'))).toBeUndefined()
  })
})

describe('overwintering', () => {
  const light = { grams: 420, stages: ['restricted activity'] as const }
  it('begins to be asked on 1 November, for whoever is under the weight of the plan', () => {
    expect(overwinterOf([hedgehog], light, day('2026-10-31'))).toBeUndefined()
    expect(overwinterOf([hedgehog], light, day('2026-11-01'))).toEqual({
      kind: 'too light',
      grams: 420,
      wanted: 600,
      mark: 'M',
    })
    expect(overwinterOf([hedgehog], { ...light, grams: 600 }, day('2026-11-01'))).toBeUndefined()
  })

  it('asks for a weight where there is none, and is quiet once it is planned', () => {
    expect(overwinterOf([hedgehog], { ...light, grams: undefined }, day('2026-11-01'))?.kind).toBe('weigh')
    expect(
      overwinterOf([hedgehog], { ...light, stages: ['overwintering'] }, day('2026-11-01')),
    ).toBeUndefined()
    expect(overwinterOf([swallow], light, day('2026-11-01'))).toBeUndefined()
  })
})
