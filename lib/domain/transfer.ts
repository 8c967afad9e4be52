/**
 * A move between centres: how it stands, why it was proposed, what staying and moving cost when it was.
 * Promise: one list of states; what was kept with a proposal is read back as it was shown.
 */
import { z } from 'zod'
import type { Moment } from './parse.ts'
import { idInput } from './record.ts'
import { localDateTimeText } from './text.ts'

export const TRANSFER_STATES = [
  'proposed',
  'agreed',
  'on-the-road',
  'arrived',
  'turned-back',
  'refused',
  'cancelled',
  'expired',
] as const
export const transferState = z.enum(TRANSFER_STATES)
export type TransferState = z.infer<typeof transferState>

export const transferReason = z.enum(['ready', 'short', 'by-hand'])
export type TransferReason = z.infer<typeof transferReason>

const billWords = z.strictObject({
  centre: z.string(),
  terms: z.array(z.strictObject({ label: z.string(), detail: z.string(), placeDays: z.number() })),
  total: z.number(),
})

/** What staying and moving cost, in the words that were shown; the terms add up to the total. */
export const transferBills = z.strictObject({
  because: z.string(),
  gain: z.number(),
  stay: billWords,
  move: billWords,
})
export type TransferBills = z.infer<typeof transferBills>

/** Nobody plans a move further ahead. Ours. */
const DAYS_AHEAD_MAX = 30
const MS_PER_DAY = 86_400_000
const CLOCK_SKEW_MS = 5 * 60_000

/** A move that somebody proposes: who, where to, when it is expected there. */
export const transferInput = (moment: Moment) =>
  z.object({
    casualtyId: idInput,
    toCentreId: idInput,
    expectedAt: localDateTimeText(moment.zone).refine(
      at =>
        at.getTime() >= moment.now.getTime() - CLOCK_SKEW_MS &&
        at.getTime() <= moment.now.getTime() + DAYS_AHEAD_MAX * MS_PER_DAY,
      { params: { rule: 'transfer-time-ahead' } },
    ),
  })

/** Whether a move is still to come or under way. */
export function isOpenTransfer(state: TransferState): boolean {
  return state === 'proposed' || state === 'agreed' || state === 'on-the-road'
}
