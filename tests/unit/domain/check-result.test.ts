import { describe, expect, it } from 'vitest'
import { checkFound, FOUND, foundChoices } from '#lib/domain/check-result.ts'
import { isFailure } from '#lib/kernel/failure.ts'

const refusedBecause = (work: () => unknown) => {
  try {
    work()
    return 'nothing'
  } catch (thrown) {
    return isFailure(thrown) ? thrown.problems[0] : thrown
  }
}

describe('what a check found', () => {
  it('passes or not by the finding alone: only a united bone passes a radiograph of union', () => {
    const passed = (found: (typeof FOUND)[number]) => checkFound('radiograph', { found, signedBy: '' }).passed
    expect(passed('united')).toBe(true)
    expect(passed('partly united')).toBe(false)
    expect(passed('not united')).toBe(false)
  })

  it('is one of that kind of check', () => {
    expect(refusedBecause(() => checkFound('flight-test', { found: 'united', signedBy: '' }))).toEqual({
      field: 'found',
      reason: 'not-listed',
    })
  })

  it('needs the name of the vet who signs that something stays, and nobody else needs one', () => {
    expect(refusedBecause(() => checkFound('pin-out', { found: 'signed to stay', signedBy: '' }))).toEqual({
      field: 'signedBy',
      reason: 'signature-names-the-vet',
    })
    expect(checkFound('pin-out', { found: 'signed to stay', signedBy: 'Dr T' })).toMatchObject({
      passed: true,
      signedBy: 'Dr T',
    })
    expect(checkFound('pin-out', { found: 'out', signedBy: '' }).signedBy).toBeNull()
  })

  it('may be passed or not in plain words, but never nothing', () => {
    expect(checkFound('companion', { passed: false, signedBy: '' })).toMatchObject({
      passed: false,
      found: null,
    })
    expect(refusedBecause(() => checkFound('companion', { signedBy: '' }))).toMatchObject({ field: 'found' })
  })

  it('belongs to some check, each of them', () => {
    const slugs = [
      'radiograph fixator-off pin-out implant-signed bandage-change weigh release-weight flight-test',
      'release-check waterproof-test self-feeding quarantine-clear vet-word',
    ].flatMap(line => line.split(' '))
    const offered = new Set(slugs.flatMap(slug => foundChoices(slug).map(({ found }) => found)))
    expect(FOUND.filter(found => !offered.has(found))).toEqual([])
  })
})
