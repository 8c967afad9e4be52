import { Notice } from '#app/_ui/notice.tsx'
import { reviewState } from '#lib/domain/review.ts'
import { OVERDUE_TODO, overdueWords } from '#lib/words/setup-knowledge.ts'

/** Says that a review is overdue; nothing while it is not. */
export function ReviewNotice({
  reviewedOn,
  today,
}: {
  readonly reviewedOn: string | null
  readonly today: number
}) {
  if (reviewState(reviewedOn, today) !== 'overdue') return null
  return <Notice kind="check-this" sentence={overdueWords(reviewedOn)} kept={OVERDUE_TODO} />
}
