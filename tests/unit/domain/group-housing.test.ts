import { describe, expect, it } from 'vitest'
import { HOUSED_STAGES, type HousedAnimal, housedFrom, housedOtherwise } from '#lib/domain/group-housing.ts'

describe('what two answers a stage say', () => {
  it('is the preferred kind first, each once, and isolation in quarantine whatever was typed', () => {
    const housed = housedFrom(
      {
        'critical care': 'indoor-pen',
        'restricted activity': 'hospital-cage',
        'limited activity': null,
        quarantine: 'pool-pen',
        'no stage': 'pool-pen',
      },
      {
        'critical care': 'intensive-care',
        'restricted activity': 'hospital-cage',
        'limited activity': 'outdoor-pen',
      },
    )
    expect(housed).toEqual({
      quarantine: ['isolation'],
      'critical care': ['indoor-pen', 'intensive-care'],
      'restricted activity': ['hospital-cage'],
      'limited activity': ['outdoor-pen'],
    })
    expect(HOUSED_STAGES).not.toContain('quarantine')
  })
})

describe('who lives otherwise', () => {
  const one: HousedAnimal = {
    casualtyId: 1,
    reference: 'Marram 13',
    enclosureId: 4,
    enclosure: 'Cage 4',
    isPromise: false,
    stage: 'critical care',
    housing: 'hospital-cage',
  }
  const before = { 'critical care': ['intensive-care', 'hospital-cage'] } as const

  it('is who has a kind that the group had at the stage and has no longer', () => {
    const after = { 'critical care': ['intensive-care'] } as const
    expect(housedOtherwise(before, after, [one, { ...one, isPromise: true }])).toEqual([
      {
        casualtyId: 1,
        reference: 'Marram 13',
        enclosureId: 4,
        enclosure: 'Cage 4',
        kind: 'housed otherwise',
      },
      { casualtyId: 1, reference: 'Marram 13', enclosureId: 4, enclosure: 'Cage 4', kind: 'kept otherwise' },
    ])
    expect(housedOtherwise(before, after, [{ ...one, stage: 'limited activity' }])).toEqual([])
    expect(housedOtherwise(before, after, [{ ...one, housing: 'pool-pen' }])).toEqual([])
  })

  it('is nobody where the care plan decides from then on, or only the order changes', () => {
    expect(housedOtherwise(before, {}, [one])).toEqual([])
    expect(housedOtherwise(before, { 'critical care': ['hospital-cage', 'intensive-care'] }, [one])).toEqual(
      [],
    )
  })
})
