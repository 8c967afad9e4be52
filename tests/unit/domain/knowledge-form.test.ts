import { describe, expect, it } from 'vitest'
import { groupForm, newCompanyForm, newRuleForm, slugOf } from '#lib/domain/knowledge-form.ts'

describe('a company as it is typed', () => {
  const typed = { slug: 'wood-pigeons', members: ' Pigeons of one size ', preys: 'prey', mark: 'CP' }

  it('is read, an empty side being none', () => {
    expect(newCompanyForm.parse(typed)).toEqual({ ...typed, members: 'Pigeons of one size' })
    expect(newCompanyForm.parse({ ...typed, preys: '' }).preys).toBeNull()
  })

  it.each(['Wood pigeons', 'wood--pigeons', '-wood', 'ö', ''])('is refused the key "%s"', slug => {
    expect(newCompanyForm.safeParse({ ...typed, slug }).success).toBe(false)
  })
})

describe('a group as it is typed', () => {
  const typed = {
    name: 'Thrushes',
    defaultCompany: 'thrushes',
    temperament: 'Adults fight in spring',
    temperamentMark: 'CP',
    stock: { 'hospital-cage': '3', isolation: '' },
    stockMark: 'A:S2',
    housingMark: 'CP',
    minutes: { 'critical care': '20', 'hand-rearing': '30', overwintering: '' },
    minutesMark: 'CP',
    reviewedOn: '2026-03-01',
  }

  it('is read with numbers for the housing that has one, and a box not ticked', () => {
    expect(groupForm.parse(typed)).toMatchObject({
      stock: { 'hospital-cage': 3 },
      minutes: { 'critical care': 20, 'hand-rearing': 30 },
      isHighRiskInfluenza: false,
      reviewedOn: '2026-03-01',
    })
    expect(groupForm.parse({ ...typed, reviewedOn: '' }).reviewedOn).toBeNull()
  })

  it.each([
    ['stock', { 'hospital-cage': '0' }],
    ['stock', { cupboard: '1' }],
    ['minutes', { 'critical care': '601' }],
    ['minutes', { idleness: '1' }],
    ['minutesMark', ''],
    ['housingMark', ''],
    ['reviewedOn', '2026-02-30'],
    ['temperamentMark', ' '],
  ])('is refused for its %s', (field, value) => {
    expect(groupForm.safeParse({ ...typed, [field]: value }).success).toBe(false)
  })
})

describe('a rule as it is typed', () => {
  const typed = {
    kind: 'licence',
    key: 'coast-42',
    meaning: 'Keep for 42 days at most',
    jurisdiction: '',
    clockDays: '15; 42',
    mark: 'R:S96',
    reviewedOn: '',
  }

  it('is read with its days as numbers', () => {
    expect(newRuleForm.parse(typed)).toEqual({
      ...typed,
      jurisdiction: null,
      clockDays: [15, 42],
      clockHolders: [],
      needsHolder: false,
      reviewedOn: null,
    })
    expect(newRuleForm.parse({ ...typed, clockHolders: 'authorised person; vet' }).clockHolders).toEqual([
      'authorised person',
      'vet',
    ])
    expect(newRuleForm.safeParse({ ...typed, clockHolders: 'somebody' }).success).toBe(false)
    expect(newRuleForm.parse({ ...typed, clockDays: '' }).clockDays).toEqual([])
  })

  it.each(['0', '15; soon', '1501'])('is refused for the days "%s"', clockDays => {
    expect(newRuleForm.safeParse({ ...typed, clockDays }).success).toBe(false)
  })
})

describe('a key from a name', () => {
  it.each([
    ['Great tit', 'great-tit'],
    ['Brown bird, pigeon-sized', 'brown-bird-pigeon-sized'],
    ['Müller’s owl', 'mu-ller-s-owl'],
  ])('%s is %s', (name, slug) => {
    expect(slugOf(name)).toBe(slug)
  })
})
