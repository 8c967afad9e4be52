import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PRECISIONS, spanOf, withSpan } from '#lib/domain/precision.ts'

describe('the span of a time', () => {
  it.each([
    ['hour', '2026-11-26T08:00', '2026-11-26T08:59'],
    ['day', '2026-11-26T00:00', '2026-11-26T23:59'],
    ['week', '2026-11-23T00:00', '2026-11-29T23:59'],
  ])('known to the %s lies around it', (precision, earliest, latest) => {
    expect(spanOf('2026-11-26T08:15', precision)).toEqual({ earliest, latest })
  })

  it('goes over the end of a year', () => {
    expect(spanOf('2027-01-01T00:30', 'week')).toEqual({
      earliest: '2026-12-29T00:00',
      latest: '2027-01-04T23:59',
    })
  })

  it.each([
    ['2026-11-26T08:15', 'minute'],
    ['2026-11-26T08:15', undefined],
    ['', 'day'],
    [undefined, 'day'],
    ['yesterday', 'day'],
    ['2026-13-45T08:15', 'day'],
  ])('of %s to the %s is none', (typed, precision) => {
    expect(spanOf(typed, precision)).toBeUndefined()
  })

  it('always holds the time itself', () => {
    const minutes = fc.date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
    fc.assert(
      fc.property(minutes, fc.constantFrom(...PRECISIONS), (at, precision) => {
        const typed = at.toISOString().slice(0, 16)
        const span = spanOf(typed, precision)
        return span === undefined ? precision === 'minute' : span.earliest <= typed && typed <= span.latest
      }),
    )
  })
})

describe('a form', () => {
  it('whose time was left empty means now, as well as it is known', () => {
    const form = { since: '', at: '', precision: 'day', to: 'centre' }
    const day = { earliest: '2026-11-26T00:00', latest: '2026-11-26T23:59' }
    const now = '2026-11-26T08:15'
    expect(withSpan(form, 'since', now)).toEqual({ ...form, since: now, ...day })
    expect(withSpan(form, 'at', now)).toEqual({ ...form, at: now, ...day })
    expect(withSpan({ ...form, precision: 'minute' }, 'at', now)).toEqual({ ...form, precision: 'minute' })
  })
})
