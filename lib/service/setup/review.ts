/**
 * The day of a review in setup. Promise: nobody has reviewed anything tomorrow.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { dateOfDay, dayOfInstant } from '#lib/domain/day.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { momentOf } from '../about-casualty.ts'

/** Throws where the day of the review has not come yet, by the network's clock. */
export async function refuseFutureReview(_grant: Grant, reviewedOn: string | null, now: Date): Promise<void> {
  const { zone } = await momentOf(now)
  if (reviewedOn === null || reviewedOn <= dateOfDay(dayOfInstant(now, zone))) return
  throw new Failure('invalid', {
    field: 'reviewedOn',
    problems: [{ field: 'reviewedOn', reason: 'not-happened-yet' }],
  })
}
