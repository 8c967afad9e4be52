/**
 * How soon an animal must be seen.
 * Promise: the most urgent of what its conditions usually need and what the answers say, with every reason that makes
 * it so. Common practice: no scheme is published. A person may set it otherwise.
 */
import type { ConditionKnowledge } from './knowledge.ts'
import type { Answers, YesNoQuestion } from './question.ts'

/** From the most urgent. */
export const URGENCIES = ['now', 'today', 'tomorrow', 'advice'] as const
export type Urgency = (typeof URGENCIES)[number]

export type UrgencyReason =
  | { readonly kind: 'condition'; readonly condition: string }
  | { readonly kind: 'answer'; readonly question: YesNoQuestion }
  | { readonly kind: 'notifiable' }
  | { readonly kind: 'leave alone' }
  | { readonly kind: 'nothing said' }

export type UrgencyFound = { readonly urgency: Urgency; readonly because: readonly UrgencyReason[] }

/** Answers that make it urgent whatever the condition (trade 4.1, common practice). */
const BY_ANSWER: readonly { question: YesNoQuestion; answer: 'yes' | 'no'; urgency: Urgency }[] = [
  { question: 'bleeding', answer: 'yes', urgency: 'now' },
  { question: 'breathing', answer: 'yes', urgency: 'now' },
  { question: 'conscious', answer: 'no', urgency: 'now' },
  { question: 'bone-through-skin', answer: 'yes', urgency: 'now' },
  { question: 'flies', answer: 'yes', urgency: 'now' },
  { question: 'wobbling', answer: 'yes', urgency: 'now' },
  { question: 'cat', answer: 'yes', urgency: 'today' },
  { question: 'injury', answer: 'yes', urgency: 'today' },
  { question: 'other-injury', answer: 'yes', urgency: 'today' },
  { question: 'line-from-mouth', answer: 'yes', urgency: 'today' },
  { question: 'oil', answer: 'yes', urgency: 'today' },
]

/** The most urgent of two. */
export function moreUrgent(a: Urgency, b: Urgency): Urgency {
  return URGENCIES.indexOf(a) <= URGENCIES.indexOf(b) ? a : b
}

/** How soon, and why. Where nothing is said it is today: somebody has picked up a wild animal. */
export function urgencyOf(
  conditions: readonly Pick<ConditionKnowledge, 'slug' | 'default_urgency'>[],
  answers: Answers,
  more: { readonly isLeaveAlone: boolean; readonly isNotifiableSuspect: boolean },
): UrgencyFound {
  if (more.isNotifiableSuspect) return { urgency: 'now', because: [{ kind: 'notifiable' }] }
  if (more.isLeaveAlone) return { urgency: 'advice', because: [{ kind: 'leave alone' }] }
  const found = [
    ...conditions.map(one => ({
      urgency: one.default_urgency,
      reason: { kind: 'condition', condition: one.slug } as const,
    })),
    ...BY_ANSWER.filter(one => answers[one.question] === one.answer).map(one => ({
      urgency: one.urgency,
      reason: { kind: 'answer', question: one.question } as const,
    })),
  ]
  if (found.length === 0) return { urgency: 'today', because: [{ kind: 'nothing said' }] }
  const urgency = found.map(one => one.urgency).reduce(moreUrgent)
  return { urgency, because: found.filter(one => one.urgency === urgency).map(one => one.reason) }
}
