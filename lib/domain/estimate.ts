/**
 * How long a stage of care takes and how it ends, as a care plan or a person says it.
 * Promise: shares lie in [0, 1] and sum to 1; every length is a lognormal in days, given by its median and its 90th
 * percentile, *given* that ending. Refuses a 90th percentile below the median. Stored with each casualty's stage.
 */
import { z } from 'zod'
import { CARE_STAGES } from './housing.ts'

/** What the plan says of death where it says nothing itself: raptors, all causes (trade S26: median 2, p90 31 days). */
export const DIED_BY_DEFAULT = { medianDays: 2, p90Days: 31 } as const

export const LENGTH_MAX_DAYS = 1500
export const SHARES_TOLERANCE = 1e-6 // the same as the table's check: shares are typed with at most six digits

export const lengthEstimate = z
  .strictObject({
    medianDays: z.number().positive().max(LENGTH_MAX_DAYS).meta({ title: 'Usual time', unit: 'days' }),
    p90Days: z.number().positive().max(LENGTH_MAX_DAYS).meta({ title: 'Nine of ten within', unit: 'days' }),
  })
  .refine(length => length.p90Days > length.medianDays, {
    path: ['p90Days'],
    params: { rule: 'p90-not-above-median' },
  })
export type LengthEstimate = z.infer<typeof lengthEstimate>

const DAYS_OF_MONTH = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const

/** A day of the year without a year, `03-20`. */
export const monthDay = z
  .string()
  .regex(/^\d{2}-\d{2}$/)
  .refine(text => isMonthDay(text), { params: { rule: 'not-a-day-of-the-year' } })
  .meta({ title: 'Day of the year', hint: 'Month and day, such as 03-20' })

export const readiness = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('length'), length: lengthEstimate }),
  z.strictObject({
    kind: z.literal('date gate'),
    opens: monthDay,
    closes: monthDay.nullable(),
    minDays: z.number().min(0).max(LENGTH_MAX_DAYS),
    lag: lengthEstimate,
  }),
])
export type Readiness = z.infer<typeof readiness>

const share = z.number().min(0).max(1)

export const exitShares = z
  .strictObject({ onward: share, died: share, euthanased: share, left: share })
  .refine(shares => Math.abs(sumOfShares(shares) - 1) < SHARES_TOLERANCE, {
    params: { rule: 'shares-do-not-sum' },
  })

export const stageEstimate = z.strictObject({
  stage: z.enum(CARE_STAGES),
  ready: readiness,
  shares: exitShares,
  died: lengthEstimate,
  euthanased: lengthEstimate,
  /** A check that bars the way is due that many midnights after the stage began; nobody goes onward sooner. */
  leastDays: z.int().min(0).exactOptional(),
})
export type StageEstimate = z.infer<typeof stageEstimate>

/** Whether two estimates say the same of a stage, whatever check each waits for. */
export function saysTheSame(a: StageEstimate, b: StageEstimate): boolean {
  return a === b || JSON.stringify(saidIn(a)) === JSON.stringify(saidIn(b))
}

/** What an estimate says in one order, however it was stored. */
function saidIn({ stage, ready, shares, died, euthanased }: StageEstimate) {
  const length = ({ medianDays, p90Days }: LengthEstimate) => [medianDays, p90Days]
  const { onward, left } = shares
  return [
    stage,
    ready.kind === 'length'
      ? length(ready.length)
      : [ready.opens, ready.closes, ready.minDays, length(ready.lag)],
    [onward, shares.died, shares.euthanased, left],
    length(died),
    length(euthanased),
  ]
}

/** The sum of the four ways a stage ends. */
export function sumOfShares(shares: {
  readonly onward: number
  readonly died: number
  readonly euthanased: number
  readonly left: number
}): number {
  return shares.onward + shares.died + shares.euthanased + shares.left
}

function isMonthDay(text: string): boolean {
  const days = DAYS_OF_MONTH[Number(text.slice(0, 2)) - 1]
  const day = Number(text.slice(3))
  return days !== undefined && day >= 1 && day <= days
}
