/**
 * When a rule or a fact of the trade was last looked at, and whether it is time to look again.
 * Promise: a year is ours, no source: licences and their conditions are renewed by the year where they are published.
 */
import { type DayNumber, dayOfDate } from './day.ts'

export const REVIEW_EVERY_DAYS = 365

export type ReviewState = 'never' | 'overdue' | 'current'

/** How the review of something stands on a day. */
export function reviewState(reviewedOn: string | null, today: DayNumber): ReviewState {
  if (reviewedOn === null) return 'never'
  return today - dayOfDate(reviewedOn) > REVIEW_EVERY_DAYS ? 'overdue' : 'current'
}

/** A fact that was changed is ours, unless whoever changed it names another source. */
export function sourcedMark(
  before: { readonly said: unknown; readonly mark: string | null },
  after: { readonly said: unknown; readonly mark: string | null },
  ours: string,
): string | null {
  const isChanged = JSON.stringify(before.said) !== JSON.stringify(after.said)
  return isChanged && after.mark === before.mark ? ours : after.mark
}
