import { describe, expect, it } from 'vitest'
import {
  acceptForm,
  isTurnEnd,
  type LineTurn,
  listTurnEnds,
  offerForm,
  takeOverForm,
  unheldBecause,
} from '#lib/domain/line.ts'

const at = (text: string) => new Date(text)
const TURN: LineTurn = {
  id: 1,
  holderId: 7,
  holder: 'Marit Sollwyn',
  phone: null,
  isHolderThere: true,
  takenAt: at('2026-11-28T23:00Z'),
  untilAt: at('2026-11-29T08:00Z'),
  how: 'taken-up',
  reason: null,
  passed: [],
  endedAt: null,
}

describe('the line', () => {
  it('is held until the end that was said, and not a moment longer', () => {
    expect(unheldBecause(TURN, at('2026-11-29T07:59:59Z'))).toBeUndefined()
    expect(unheldBecause(TURN, at('2026-11-29T08:00Z'))).toBe('past-its-end')
  })

  it('is unheld when nobody took it or the holder was switched off', () => {
    expect(unheldBecause(undefined, at('2026-11-29T07:00Z'))).toBe('nobody')
    expect(unheldBecause({ ...TURN, isHolderThere: false }, at('2026-11-29T07:00Z'))).toBe('holder-gone')
  })
})

describe('the hours at which a turn can end', () => {
  it('are the next 24 full hours, each a different instant through both changes of the clock', () => {
    for (const night of ['2027-03-28T00:20Z', '2026-10-25T00:20Z', '2026-11-29T23:59Z']) {
      const ends = listTurnEnds(at(night))
      expect(ends).toHaveLength(24)
      expect(new Set(ends.map(Number)).size).toBe(24)
      expect(ends.every(end => isTurnEnd(end, at(night)) && end.getUTCMinutes() === 0)).toBe(true)
    }
  })

  it('lie ahead, and within a day', () => {
    const now = at('2026-11-29T07:00Z')
    expect(isTurnEnd(now, now)).toBe(false)
    expect(isTurnEnd(at('2026-11-29T06:00Z'), now)).toBe(false)
    expect(isTurnEnd(at('2026-11-30T07:00Z'), now)).toBe(true)
    expect(isTurnEnd(at('2026-11-30T07:01Z'), now)).toBe(false)
  })
})

describe('what is sent', () => {
  it('names a person or whoever comes next, and keeps the words', () => {
    expect(offerForm.parse({ to: '', words: ' The otter rang. ' })).toEqual({
      to: null,
      words: 'The otter rang.',
    })
    expect(offerForm.parse({ to: '4' })).toEqual({ to: 4, words: '' })
  })

  it('says which turn was seen, or that there was none', () => {
    expect(acceptForm.parse({ turnId: '3', untilAt: '2026-11-29T08:00:00.000Z' }).turnId).toBe(3)
    expect(acceptForm.parse({ turnId: '', untilAt: '2026-11-29T08:00:00.000Z' }).turnId).toBeNull()
    expect(acceptForm.safeParse({ turnId: '3', untilAt: 'soon' }).success).toBe(false)
  })

  it('gives a reason for taking over', () => {
    const asked = { turnId: '3', untilAt: '2026-11-29T08:00:00.000Z' }
    expect(takeOverForm.safeParse({ ...asked, reason: '  ' }).success).toBe(false)
    expect(takeOverForm.parse({ ...asked, reason: 'Her phone is off' }).reason).toBe('Her phone is off')
  })
})
