/**
 * A proposed move that is set aside: why, and until when.
 * Promise: a reason is one of a short list, or words; a day lies ahead, within a year.
 */
import { z } from 'zod'
import type { DayNumber } from './day.ts'
import { dateOfDay } from './day.ts'
import { idInput } from './record.ts'

export const ASIDE_REASONS = [
  'unfit to travel',
  'settled here',
  'with its company',
  'nobody drives',
  'not now there',
  'other',
] as const
export const asideReason = z.enum(ASIDE_REASONS)
export type AsideReason = z.infer<typeof asideReason>

const WORDS_MAX = 200
const DAYS_AHEAD_MAX = 365
const blank = z.literal('').transform(() => undefined)

/** Which move is set aside, why, and until when; without a day until something changes. */
export const asideInput = (today: DayNumber) =>
  z
    .object({
      casualtyId: idInput,
      toCentreId: idInput,
      reason: asideReason,
      words: z.union([blank, z.string().trim().max(WORDS_MAX)]).optional(),
      untilOn: z
        .union([blank, z.iso.date()])
        .optional()
        .refine(
          day => day === undefined || (day > dateOfDay(today) && day <= dateOfDay(today + DAYS_AHEAD_MAX)),
          { params: { rule: 'move-aside-day-ahead' } },
        ),
    })
    .refine(({ reason, words }) => reason !== 'other' || words !== undefined, {
      path: ['words'],
      params: { rule: 'move_aside_other_says_why' },
    })
