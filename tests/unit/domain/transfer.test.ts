import { expect, test } from 'vitest'
import { isOpenTransfer, TRANSFER_STATES, transferInput } from '#lib/domain/transfer.ts'

const MOMENT = { zone: 'Europe/London', now: new Date('2026-06-10T11:00:00Z') }
const read = (expectedAt: string) =>
  transferInput(MOMENT).safeParse({ casualtyId: '4', toCentreId: '2', expectedAt })

test('a move is expected by the clock of the network, within thirty days', () => {
  expect(read('2026-06-10T14:00').data).toEqual({
    casualtyId: 4,
    toCentreId: 2,
    expectedAt: new Date('2026-06-10T13:00:00Z'),
  })
  expect(read('2026-06-10T11:50').success).toBe(false)
  expect(read('2026-07-11T14:00').success).toBe(false)
  expect(read('soon').success).toBe(false)
})

test('three states are open', () => {
  expect(TRANSFER_STATES.filter(isOpenTransfer)).toEqual(['proposed', 'agreed', 'on-the-road'])
})
