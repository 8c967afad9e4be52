import { describe, expect, it } from 'vitest'
import { FAILURES, Failure, type FailureCode, isFailure } from '#lib/kernel/failure.ts'

describe('a failure', () => {
  it('has the status of its code', () => {
    const codes = Object.keys(FAILURES) as FailureCode[]
    expect(codes.map(code => [code, new Failure(code).status])).toEqual([
      ['invalid', 422],
      ['signed-out', 401],
      ['forbidden', 403],
      ['not-found', 404],
      ['conflict', 409],
      ['taken', 409],
      ['rule', 409],
      ['fault', 503],
    ])
  })

  it('carries the rule, the field, the problems and the cause', () => {
    const cause = new Error('from below')
    const failure = new Failure('rule', {
      rule: 'claim_place_taken_once',
      field: 'place',
      problems: [{ field: 'place', reason: 'taken' }],
      data: { by: 'Marram 13' },
      cause,
    })
    expect(failure).toMatchObject({
      message: 'rule: claim_place_taken_once',
      rule: 'claim_place_taken_once',
      field: 'place',
      problems: [{ field: 'place', reason: 'taken' }],
      data: { by: 'Marram 13' },
      cause,
    })
  })

  it('is empty where nothing was said', () => {
    expect(new Failure('fault')).toMatchObject({
      message: 'fault',
      rule: undefined,
      field: undefined,
      problems: [],
      data: {},
    })
  })
})

describe('isFailure', () => {
  it('knows ours, also from another copy of the module', () => {
    const foreign = Object.assign(new Error('taken'), { name: 'Failure', code: 'taken' })
    expect([new Failure('taken'), foreign].map(isFailure)).toEqual([true, true])
  })

  it('refuses what only looks like one', () => {
    const unknownCode = Object.assign(new Error('x'), { name: 'Failure', code: 'toString' })
    const noCode = Object.assign(new Error('x'), { name: 'Failure' })
    const numberCode = Object.assign(new Error('x'), { name: 'Failure', code: 7 })
    const plain = { name: 'Failure', code: 'taken' }
    expect([new Error('taken'), unknownCode, noCode, numberCode, plain, undefined].map(isFailure)).toEqual(
      Array(6).fill(false),
    )
  })
})
