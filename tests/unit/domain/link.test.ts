import { describe, expect, it } from 'vitest'
import { isToken, type LinkState, linkStanding, TOKEN_BYTES } from '#lib/domain/link.ts'

const NOON = new Date('2026-06-09T12:00:00Z')
const later = (minutes: number) => new Date(NOON.getTime() + minutes * 60_000)
const state = (change: Partial<LinkState> = {}): LinkState => ({
  expiresAt: later(10),
  openedAt: null,
  usedAt: null,
  revokedAt: null,
  ...change,
})

describe('a link', () => {
  it('is open until the instant it runs out at', () => {
    expect(linkStanding(state(), later(9))).toBe('open')
    expect(linkStanding(state(), later(10))).toBe('ran out')
  })

  it('stays used or taken back, also after its time', () => {
    expect(linkStanding(state({ usedAt: NOON }), later(99))).toBe('used')
    expect(linkStanding(state({ revokedAt: NOON }), later(99))).toBe('taken back')
  })

  it('is not spent by being looked at', () => {
    expect(linkStanding(state({ openedAt: NOON }), later(1))).toBe('open')
  })
})

describe('a token', () => {
  it('is so many bytes in the alphabet of addresses, and nothing else', () => {
    const bytes = Buffer.alloc(TOKEN_BYTES, 0xfb)
    expect(isToken(bytes.toString('base64url'))).toBe(true)
    for (const text of [
      '',
      'x',
      bytes.toString('base64'),
      `${bytes.toString('base64url')}x`,
      "' or 1=1 --",
    ]) {
      expect(isToken(text)).toBe(false)
    }
  })
})
