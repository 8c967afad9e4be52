/**
 * How soon, in words, and why. Promise: says once that the classes are common practice and that a vet decides.
 */
import type { Urgency, UrgencyReason } from '#lib/domain/urgency.ts'
import { answeredWords } from './question.ts'

const NAMES: Readonly<Record<Urgency, string>> = {
  now: 'Now',
  today: 'Today',
  tomorrow: 'Tomorrow',
  advice: 'Advice',
}
const MEANS: Readonly<Record<Urgency, string>> = {
  now: 'A vet should see it at once',
  today: 'A vet should see it within hours',
  tomorrow: 'A vet should see it within a day',
  advice: 'It may not need a vet',
}

/** "Now". */
export function urgencyName(urgency: Urgency): string {
  return NAMES[urgency]
}

/** What the class means for the animal. */
export function urgencyMeans(urgency: Urgency): string {
  return MEANS[urgency]
}

/** "because it bleeds"; `conditionName` gives a condition's name. */
export function urgencyBecause(
  because: readonly UrgencyReason[],
  conditionName: (slug: string) => string,
): string {
  return `because ${because.map(reason => reasonWords(reason, conditionName)).join(', and ')}`
}

export const URGENCY_SOURCE = 'Common practice, no published scheme. A vet may say otherwise.'

function reasonWords(reason: UrgencyReason, conditionName: (slug: string) => string): string {
  switch (reason.kind) {
    case 'condition':
      return `of "${conditionName(reason.condition)}"`
    case 'answer':
      return answeredWords(reason.question)
    case 'notifiable':
      return 'a notifiable disease is suspected'
    case 'leave alone':
      return 'it looks unhurt and is best left where it is'
    case 'nothing said':
      return 'nobody has said what is wrong'
  }
}
