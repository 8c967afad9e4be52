/**
 * What is sent when an ask is put, answered on the phone or through its link: typed words and times.
 * Promise: a vet's yes names when it is seen, not before now; everybody who answers gives a name. Instants by the
 * network's clock.
 */
import { z } from 'zod'
import type { Moment } from './parse.ts'
import { idInput } from './record.ts'
import { localDateTimeText } from './text.ts'

export const BY_MAX = 120
export const REASON_MAX = 300
export const WHAT_MAX = 400
export const OFFERS_MAX = 400
/** A vet sees it within so many days, or it is another question. Ours. */
const DAYS_AHEAD_MAX = 60
const MS_PER_DAY = 86_400_000
const CLOCK_SKEW_MS = 5 * 60_000

const by = z.string().trim().min(1).max(BY_MAX)
const blank = z.literal('').transform(() => undefined)

/** Yes or no, by whom, why not, and for a vet when. */
export const answerInput = (moment: Moment) =>
  z.object({
    say: z.enum(['yes', 'no']),
    by,
    reason: z.string().trim().max(REASON_MAX).default(''),
    comesAt: z
      .union([blank, z.date(), localDateTimeText(moment.zone)])
      .optional()
      .refine(
        at =>
          at === undefined ||
          (at.getTime() >= moment.now.getTime() - CLOCK_SKEW_MS &&
            at.getTime() <= moment.now.getTime() + DAYS_AHEAD_MAX * MS_PER_DAY),
        { params: { rule: 'vet-time-ahead' } },
      ),
  })
export type AnswerGiven = z.infer<ReturnType<typeof answerInput>>

/** A casualty put to a practice. */
export const referralInput = z.object({
  practiceId: idInput,
  what: z.string().trim().min(1).max(WHAT_MAX),
  homeCentreId: z.union([blank, idInput]).optional(),
  offers: z.string().trim().max(OFFERS_MAX).default(''),
})
export type ReferralPut = z.infer<typeof referralInput>
