/** What a piece of work was refused with, as text: its code, the rule and what was said, or the fields with a problem. */
import type { Failure } from '#lib/kernel/failure.ts'

export function refusal(work: Promise<unknown>): Promise<string> {
  return work.then(
    () => 'nothing',
    (thrown: Failure) => `${thrown.code} ${thrown.rule ?? ''} ${thrown.data?.['say'] ?? ''}`.trim(),
  )
}

export function fields(work: Promise<unknown>): Promise<string[]> {
  return work.then(
    () => [],
    (thrown: Failure) => thrown.problems.map(problem => `${problem.field}: ${problem.reason}`),
  )
}
