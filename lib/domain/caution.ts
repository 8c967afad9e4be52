/**
 * Which cautions the facts of a case call for, where they bind, and how far each can be trusted.
 * Promise: one table with the mark of every caution (design: "Cautions"; sources in trade.md); those that come before
 * the options first; each once. The sentences are in lib/words.
 */
import type { ConditionKnowledge, SpeciesKnowledge } from './knowledge.ts'
import type { NotifiableState } from './notifiable.ts'
import type { Answers } from './question.ts'

export type CautionPlace =
  | 'call'
  | 'options'
  | 'driver'
  | 'card'
  | 'site'
  | 'transfer'
  | 'referral'
  | 'outcome'
  | 'release'

export type CautionRow = {
  readonly where: readonly CautionPlace[]
  /** Shown before the options, or the first answer could be acted on without it. */
  readonly isBeforeOptions: boolean
  readonly mark: string
}

/** In the order in which they are said. */
export const CAUTIONS = {
  'notifiable-suspect': {
    where: ['call', 'options', 'driver', 'site'],
    isBeforeOptions: true,
    mark: 'R:S14+S16',
  },
  'notifiable-screen': { where: ['call', 'site'], isBeforeOptions: true, mark: 'R:S14+S16' },
  'stay-away': { where: ['call'], isBeforeOptions: true, mark: 'CP' },
  bats: { where: ['call', 'driver', 'card'], isBeforeOptions: true, mark: 'R:N14' },
  bitten: { where: ['call'], isBeforeOptions: true, mark: 'CP' },
  'seal-bite': { where: ['call', 'driver', 'card'], isBeforeOptions: true, mark: 'M' },
  'young-alone': { where: ['call'], isBeforeOptions: true, mark: 'CP' },
  eyes: { where: ['call', 'driver', 'card'], isBeforeOptions: false, mark: 'CP' },
  talons: { where: ['call', 'driver', 'card'], isBeforeOptions: false, mark: 'CP' },
  'not-alone': { where: ['call', 'driver', 'card'], isBeforeOptions: false, mark: 'CP' },
  finder: { where: ['call'], isBeforeOptions: false, mark: 'CP' },
  zoonoses: { where: ['call', 'card', 'transfer'], isBeforeOptions: false, mark: 'CP' },
  transport: { where: ['call', 'driver', 'transfer'], isBeforeOptions: false, mark: 'R:S89+S92' },
  'driver-rest': { where: ['driver'], isBeforeOptions: false, mark: 'CP' },
  'coracoid-first': { where: ['referral'], isBeforeOptions: false, mark: 'R:S47+S54+S55' },
  licence: {
    where: ['call', 'card', 'transfer', 'release'],
    isBeforeOptions: false,
    mark: 'R:S96+S97+S98+S99+S100',
  },
  carcass: { where: ['outcome'], isBeforeOptions: false, mark: 'CP' },
} as const satisfies Record<string, CautionRow>

export type CautionId = keyof typeof CAUTIONS
export type Caution = CautionRow & { readonly id: CautionId }

/** What a condition can call for of itself; the others follow from the animal, the answers or the place. */
export const CAUTIONS_OF_CONDITIONS = [
  'bats',
  'young-alone',
  'zoonoses',
  'coracoid-first',
  'carcass',
] as const satisfies readonly CautionId[]

export type CautionFacts = {
  readonly species:
    | Pick<SpeciesKnowledge, 'class' | 'handling_cautions' | 'licence_keys' | 'size_rank' | 'group_slug'>
    | undefined
  readonly conditions: readonly Pick<ConditionKnowledge, 'slug' | 'cautions'>[]
  readonly answers: Answers
  readonly dangers: readonly string[]
  readonly age: 'adult' | 'young' | 'unknown'
  readonly notifiable: NotifiableState
}

const IDS: readonly CautionId[] = [
  'notifiable-suspect',
  'notifiable-screen',
  'stay-away',
  'bats',
  'bitten',
  'seal-bite',
  'young-alone',
  'eyes',
  'talons',
  'not-alone',
  'finder',
  'zoonoses',
  'transport',
  'driver-rest',
  'coracoid-first',
  'licence',
  'carcass',
]
/** From this size rank on an animal is not approached by somebody who does not know it. Ours: common practice. */
const LARGE_FROM_RANK = 8

/** The cautions of a place, in the order in which they are said. */
export function cautionsFor(facts: CautionFacts, place: CautionPlace): Caution[] {
  return IDS.filter(id => holds(id, facts))
    .map(id => ({ id, ...CAUTIONS[id] }) satisfies Caution)
    .filter(caution => (caution.where as readonly CautionPlace[]).includes(place))
}

/** Whether a species is a bat: those carry the handling key, named or not. */
export function isBat(species: Pick<SpeciesKnowledge, 'group_slug'> | undefined): boolean {
  return species?.group_slug === 'bats'
}

function holds(id: CautionId, facts: CautionFacts): boolean {
  const { species, answers, notifiable } = facts
  const handling = (key: string) => species?.handling_cautions.includes(key) === true
  const named = (key: (typeof CAUTIONS_OF_CONDITIONS)[number]) =>
    facts.conditions.some(one => one.cautions.includes(key))
  switch (id) {
    case 'notifiable-suspect':
      return notifiable.state === 'suspected'
    case 'notifiable-screen':
      return notifiable.state === 'ask' || notifiable.state === 'screened'
    case 'stay-away':
      return mustStayAway(facts)
    case 'bats':
      return handling('no-bare-hands-bat') || (named('bats') && species?.class !== 'bird')
    case 'bitten':
      return answers.bitten === 'yes'
    case 'seal-bite':
      return handling('zoonosis-seal-bite')
    case 'young-alone':
      return facts.age !== 'adult' && named('young-alone')
    case 'eyes':
      return handling('bill-eyes')
    case 'talons':
      return handling('talons')
    case 'not-alone':
      return handling('not-alone') || handling('large-dangerous')
    case 'zoonoses':
      return named('zoonoses') || species?.handling_cautions.some(key => key.startsWith('zoonosis-')) === true
    case 'licence':
      return species?.licence_keys.some(isTimedOrBarred) === true
    case 'coracoid-first':
      return named('coracoid-first')
    case 'carcass':
      return named('carcass')
    case 'finder':
    case 'transport':
    case 'driver-rest':
      return true
  }
}

/** Adult deer, anything large, and whatever lies on road, rail, water, cliff or under a power line. */
function mustStayAway({ species, dangers, answers, age }: CautionFacts): boolean {
  const isLarge =
    species !== undefined &&
    (species.handling_cautions.includes('large-dangerous') || species.size_rank >= LARGE_FROM_RANK) &&
    age !== 'young'
  return dangers.length > 0 || answers.danger === 'yes' || answers['wire-live'] === 'yes' || isLarge
}

/** Licences with a clock, a register or a bar on release; the general leave to tend a wild bird needs no caution. */
function isTimedOrBarred(key: string): boolean {
  return !['none', 'gb-wild-bird-tend', 'gb-schedule-5-tend'].includes(key)
}
