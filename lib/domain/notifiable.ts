/**
 * Suspicion of a notifiable disease in birds, at the first call (trade S14, S16).
 * Promise: suspected on several sick or dead birds, on signs of the nerves or trouble breathing in a group at risk, or
 * when somebody says so; an injury or a negative quick test changes nothing, so neither is asked for. Until the
 * questions are answered it says which are open. A vet and the authority decide; this only keeps the bird outside.
 */
import type { ConditionKnowledge, SpeciesKnowledge } from './knowledge.ts'
import type { Answers, YesNoQuestion } from './question.ts'
import { isHighRiskInfluenza } from './species.ts'

export const NOTIFIABLE_CONDITION = 'notifiable-suspect'
/** Written with the decision and said to the authority; a name, not a diagnosis. */
export const AVIAN_INFLUENZA = 'avian influenza'

export type NotifiableReason = 'said so' | 'several sick or dead' | 'nerves' | 'breathing'

export type NotifiableState =
  | { readonly state: 'not at risk' }
  | { readonly state: 'ask'; readonly questions: readonly YesNoQuestion[] }
  | { readonly state: 'screened' }
  | { readonly state: 'suspected'; readonly disease: string; readonly because: readonly NotifiableReason[] }

type Screened = Pick<SpeciesKnowledge, 'class' | 'group_slug' | 'handling_cautions'>
type Asked = Pick<ConditionKnowledge, 'slug' | 'quarantine' | 'applies_to'>

/** Whether the disease questions are asked: every bird of a group at risk, others when their condition says so. */
export function isScreened(species: Screened | undefined, conditions: readonly Asked[]): boolean {
  if (species?.class === 'mammal') return false
  return (
    (species !== undefined && isHighRiskInfluenza(species)) ||
    conditions.some(one => one.quarantine !== 'none')
  )
}

/** What the facts say of a notifiable disease. A bird that nobody has named yet is held to be of a group at risk. */
export function notifiableState(
  species: Screened | undefined,
  conditions: readonly Asked[],
  answers: Answers,
): NotifiableState {
  if (!isBird(species, conditions)) return { state: 'not at risk' }
  const isAtRisk = species === undefined || isHighRiskInfluenza(species)
  const has = (slug: string) => conditions.some(one => one.slug === slug)
  const because: NotifiableReason[] = []
  if (has(NOTIFIABLE_CONDITION)) because.push('said so')
  if (answers['several-dead'] === 'yes' || answers['several-affected'] === 'yes')
    because.push('several sick or dead')
  if (isAtRisk && answers.nerves === 'yes') because.push('nerves')
  if (isAtRisk && (has('breathing') || answers.breathing === 'yes')) because.push('breathing')
  if (because.length > 0) return { state: 'suspected', disease: AVIAN_INFLUENZA, because }
  if (!isScreened(species, conditions)) return { state: 'not at risk' }
  const wanted: readonly YesNoQuestion[] = isAtRisk ? ['several-dead', 'nerves'] : ['several-dead']
  const questions = wanted.filter(question => answers[question] === undefined)
  return questions.length > 0 ? { state: 'ask', questions } : { state: 'screened' }
}

/** An animal without a name is a bird when something is wrong with it that only birds have. */
function isBird(species: Screened | undefined, conditions: readonly Asked[]): boolean {
  return species === undefined ? conditions.some(one => one.applies_to === 'bird') : species.class === 'bird'
}
