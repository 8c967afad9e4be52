/**
 * Conditions in words: kinds, how bad, how treated, and why a plan was chosen.
 */
import type { Severity, Treatment } from '#lib/domain/care-plan.ts'
import type { ChoiceReason } from '#lib/domain/care-plan-choice.ts'

const SEVERITY: Readonly<Record<Severity, string>> = {
  any: 'Not said',
  mild: 'Mild',
  moderate: 'Moderate',
  severe: 'Severe',
  closed: 'Closed fracture',
  open: 'Open fracture',
}

export function severityWords(severity: Severity): string {
  return SEVERITY[severity]
}

const TREATMENT: Readonly<Record<Treatment, string>> = {
  none: 'As usual',
  conservative: 'Rest, no surgery',
  surgical: 'Surgery',
}

export function treatmentWords(treatment: Treatment): string {
  return TREATMENT[treatment]
}

const BECAUSE: Readonly<Record<ChoiceReason, string>> = {
  'own group': 'the plan for its kind',
  'wider group': 'no plan for its kind: that of the wider group',
  'moderate instead': 'no plan for how bad it is: the moderate one',
  'any reason instead': 'no plan for this: the average of all animals of its class',
}

/** Why this plan speaks for the animal. */
export function choiceWords(because: ChoiceReason): string {
  return BECAUSE[because]
}

/** "Broken wing and Starved or very thin". */
export function conditionsWords(names: readonly string[]): string {
  if (names.length < 2) return names[0] ?? 'Nothing said yet'
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}
