import { describe, expect, it } from 'vitest'
import { foundChoices } from '#lib/domain/check-result.ts'
import { outcomeOf } from '#lib/domain/outcome.ts'
import { parse } from '#lib/domain/parse.ts'
import { checkTaps, outTap, ROUND_ENDINGS, roundEntryInput } from '#lib/domain/round-entry.ts'
import { isFailure } from '#lib/kernel/failure.ts'

const sent = (tap: string, more: object = {}) => ({
  key: 'some-key',
  centreId: '2',
  casualtyId: '16',
  tap,
  seenKeepingId: '',
  ...more,
})
const said = (tap: string, more: object = {}) => parse(roundEntryInput, sent(tap, more)).said

function refused(tap: string, more: object = {}) {
  try {
    return said(tap, more)
  } catch (thrown) {
    return isFailure(thrown) ? thrown.problems : thrown
  }
}

describe('a tap', () => {
  it('is read from the button and what stands beside it', () => {
    expect(said('counted', { casualtyId: '' })).toEqual({ kind: 'counted' })
    expect(said('weight', { grams: ' 81,5 ' })).toEqual({ kind: 'weight', grams: 81.5 })
    expect(said('check 12 yes')).toEqual({ kind: 'check', checkId: 12, passed: true })
    expect(said('check 12 no')).toEqual({ kind: 'check', checkId: 12, passed: false })
    expect(said('check 12 flies well')).toEqual({ kind: 'check', checkId: 12, found: 'flies well' })
    expect(said('stage 2')).toEqual({ kind: 'stage', stageNo: 2 })
    expect(said('moved 7', { enclosureId: '9' })).toEqual({ kind: 'moved', enclosureId: 7 })
    expect(said('moved', { enclosureId: '9' })).toEqual({ kind: 'moved', enclosureId: 9 })
    expect(said('moved nowhere')).toEqual({ kind: 'moved', enclosureId: null })
    expect(said('not-there')).toEqual({ kind: 'not-there' })
    expect(said('undo 4', { casualtyId: '' })).toEqual({ kind: 'undo', entryId: 4 })
  })

  it('names each of its endings as a pair that the record knows', () => {
    for (const [alive, where] of ROUND_ENDINGS) {
      expect(said(outTap(alive, where))).toEqual({ kind: 'out', alive, whereNow: where })
      expect(outcomeOf(alive, where).kind).toBe('ended')
    }
  })

  it('offers every finding of a check that a round decides, and none of the others', () => {
    expect(checkTaps(12, 'flight-test').map(({ tap }) => said(tap))).toEqual(
      foundChoices('flight-test').map(({ found }) => ({ kind: 'check', checkId: 12, found })),
    )
    expect(checkTaps(12, 'ring').map(({ tap }) => said(tap))).toEqual([
      { kind: 'check', checkId: 12, passed: true },
      { kind: 'check', checkId: 12, passed: false },
    ])
    for (const slug of ['radiograph', 'pin-out', 'vet-word']) expect(checkTaps(12, slug)).toEqual([])
  })

  it('says which field it lacks', () => {
    expect(refused('weight')).toEqual([{ field: 'grams', reason: 'missing' }])
    expect(refused('weight', { grams: 'x' })).toEqual([{ field: 'grams', reason: 'not-number' }])
    expect(refused('weight', { grams: '-3' })).toEqual([{ field: 'grams', reason: 'not-number' }])
    expect(refused('moved')).toEqual([{ field: 'enclosureId', reason: 'not-listed' }])
    for (const odd of [
      '',
      'eaten',
      'check x yes',
      'check 12',
      'check 12 sings',
      'stage',
      'out dead:escaped to sea',
      'undo',
    ]) {
      expect(refused(odd), odd).toEqual([{ field: 'tap', reason: 'not-listed' }])
    }
    expect(refused('not-there', { casualtyId: '' })).toEqual([{ field: 'tap', reason: 'not-listed' }])
  })

  it('happened so long ago as a phone says, within a fortnight', () => {
    expect(parse(roundEntryInput, sent('not-there')).agoMs).toBe(0)
    expect(parse(roundEntryInput, sent('not-there', { agoMs: '60000' })).agoMs).toBe(60_000)
    expect(refused('not-there', { agoMs: String(15 * 86_400_000) })).toEqual([
      { field: 'agoMs', reason: 'too-big', limit: 14 * 86_400_000 },
    ])
  })
})
