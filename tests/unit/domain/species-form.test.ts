import { describe, expect, it } from 'vitest'
import { parse } from '#lib/domain/parse.ts'
import { speciesForm } from '#lib/domain/species-form.ts'
import type { Failure } from '#lib/kernel/failure.ts'
import { speciesTyped } from '#tests/support/setup-forms.ts'

const problems = (typed: object) => {
  try {
    parse(speciesForm, { ...speciesTyped, ...typed })
    return []
  } catch (thrown) {
    return (thrown as Failure).problems.map(one => `${one.field} ${one.reason}`)
  }
}

describe('a species as it is typed', () => {
  it('is read with words as a list and empty numbers as none', () => {
    expect(parse(speciesForm, speciesTyped)).toMatchObject({
      alsoCalled: ['windhover'],
      massGLow: 136,
      flightLengthMinM: null,
      handlingCautions: ['talons'],
      licenceKeys: [],
      isImprintRisk: false,
    })
  })

  it('is complained about by field', () => {
    expect(problems({ massGHigh: '100' })).toEqual(['massGHigh species_mass_in_order'])
    expect(problems({ sizeRank: '10', youngFromMonth: '13', massMark: '' })).toEqual([
      'sizeRank too-big',
      'massMark missing',
      'youngFromMonth too-big',
    ])
    expect(problems({ adultAlone: 'perhaps' })).toEqual(['adultAlone not-listed'])
  })
})
