import { Notice } from '#app/_ui/notice.tsx'
import type { LearningShown } from '#lib/service/records.ts'
import { brokeOffWords, learningWords, RECORDS } from '#lib/words/records.ts'

type Props = { readonly learning: LearningShown | undefined; readonly zone: string }

/** How far a learning is that runs now, or where it broke off. */
export function Learning({ learning, zone }: Props) {
  if (learning === undefined) return null
  return learning.isStale ? (
    <Notice kind="mind" sentence={brokeOffWords(learning, zone)} kept={RECORDS.broke} />
  ) : (
    <Notice kind="working" sentence={learningWords(learning, zone)} kept={RECORDS.working} />
  )
}
