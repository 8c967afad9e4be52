import { expect, it } from 'vitest'
import { parse } from '#lib/domain/parse.ts'
import { implantsSettledBy, surgeryInput } from '#lib/domain/surgery.ts'

const NOW = new Date('2026-06-10T12:00:00Z')
const MOMENT = { zone: 'Europe/London', now: NOW }

it('reads one implant or several, and refuses an operation that is still to come', () => {
  const form = { at: '', side: 'left', what: ' Ulna pinned ' }
  expect(parse(surgeryInput(MOMENT), form)).toEqual({
    at: NOW,
    side: 'left',
    what: 'Ulna pinned',
    implants: [],
  })
  expect(parse(surgeryInput(MOMENT), { ...form, implants: 'pin' }).implants).toEqual(['pin'])
  expect(() => parse(surgeryInput(MOMENT), { ...form, at: '2026-06-11T12:00' })).toThrow()
})

it('lets a check speak of the implants it is about and of no others', () => {
  expect(implantsSettledBy('fixator-off', 'off')).toEqual({ kinds: ['external fixator'], how: 'out' })
  expect(implantsSettledBy('pin-out', 'signed to stay')).toEqual({ kinds: ['pin'], how: 'signed to stay' })
  expect(implantsSettledBy('implant-signed', 'none in place')).toMatchObject({ how: 'out' })
  expect(implantsSettledBy('radiograph', 'united')).toBeUndefined()
  expect(implantsSettledBy('pin-out', 'still in')).toBeUndefined()
})
