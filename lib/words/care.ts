/**
 * Care in words: stages, housing, checks, and why an enclosure is no proper place.
 */
import type { Checker, GateBar } from '#lib/domain/care-plan.ts'
import type { CareStage, HousingType } from '#lib/domain/housing.ts'
import type { Misfit } from '#lib/domain/need.ts'
import { capital } from './capital.ts'

const HOUSING: Readonly<Record<HousingType, string>> = {
  'intensive-care': 'intensive care',
  isolation: 'isolation',
  'hospital-cage': 'hospital cage',
  'indoor-pen': 'indoor pen',
  'sheltered-aviary': 'sheltered aviary',
  'flight-aviary': 'flight aviary',
  'pool-pen': 'pool pen',
  'outdoor-pen': 'outdoor pen',
}

export function housingWords(type: HousingType): string {
  return HOUSING[type]
}

const STAGE: Readonly<Record<CareStage, string>> = {
  'critical care': 'Critical care',
  quarantine: 'Quarantine',
  'restricted activity': 'Restricted activity',
  'limited activity': 'Limited activity',
  'unlimited activity': 'Unlimited activity',
  overwintering: 'Overwintering',
}
const STAGE_MEANS: Readonly<Record<CareStage, string>> = {
  'critical care': 'warm and hardly moving',
  quarantine: 'apart from all others',
  'restricted activity': 'stands, turns and eats, no flight or swimming',
  'limited activity': 'short flights, walks or swims',
  'unlimited activity': 'full flight, diving, weather: getting ready to go',
  overwintering: 'kept until spring',
}

export function stageWords(stage: CareStage): string {
  return STAGE[stage]
}

/** What the animal may do in a stage. */
export function stageMeans(stage: CareStage): string {
  return STAGE_MEANS[stage]
}

const CHECK: Readonly<Record<string, string>> = {
  weigh: 'Weigh',
  'vet-exam': 'Vet looks at it',
  ring: 'Ring',
  'release-check': 'Fit to go',
  'flight-test': 'Flight test',
  radiograph: 'Radiograph',
  'vet-word': "Vet's word",
  'self-feeding': 'Feeds itself',
  companion: 'Companion',
  'bandage-change': 'Change bandage',
  'waterproof-test': 'Waterproof',
  'eye-check': 'Eyes',
  'blood-lead': 'Blood lead',
  'parasite-check': 'Parasites',
  'release-weight': 'Weight to go',
  'pin-out': 'Pin out',
  'fixator-off': 'Fixator off',
  'implant-signed': 'Vet signs that the implant stays',
  'quarantine-clear': 'Clear of quarantine',
  'second-look': 'Second look',
  reunion: 'Back to its parents',
  'site-pen': 'Pen at the site',
  'tb-test': 'Tuberculosis test',
  'live-prey': 'Takes live prey',
  'feather-check': 'Feathers',
  sample: 'Sample',
  'fit-to-wash': 'Fit to be washed',
  washed: 'Washed',
  season: 'In its season',
  'moult-check': 'Moult done',
}

/** The name of a check; one that was added in setup is read from its key. */
export function checkName(slug: string): string {
  if (Object.hasOwn(CHECK, slug)) return CHECK[slug] ?? slug
  return capital(slug.replace(/-/g, ' '))
}

const WHO: Readonly<Record<Checker, string>> = { carer: 'carer', nurse: 'nurse', vet: 'vet' }

export function checkerWords(who: Checker): string {
  return WHO[who]
}

/** What a check bars until it is passed. */
export function barWords(bar: GateBar | null): string {
  if (bar === null) return 'due, bars nothing'
  return bar === 'release' ? 'needed before it may go' : 'needed before the next stage'
}

/** Why an enclosure is no proper place, as a sentence; `companyName` says who a company is. */
export function misfitWords(misfit: Misfit, companyName: (slug: string) => string): string {
  switch (misfit.rule) {
    case 'wrong housing':
      return `It is ${anOf(misfit.has)}; this stage wants ${misfit.wants.map(housingWords).join(' or ')}`
    case 'isolation only':
      return `It is ${anOf(misfit.has)}; quarantine is kept in isolation only`
    case 'kept for isolation':
      return 'It is kept for quarantine'
    case 'too small':
      return `Too small: size ${misfit.has}, ${misfit.needs} is needed`
    case 'too short to fly in':
      return `Too short to fly in: ${metres(misfit.hasM)}, ${metres(misfit.needsM)} is needed`
    case 'lacks':
      return `It has no ${misfit.feature}`
    case 'not set up for':
      return `It is not set up for ${companyName(misfit.company)}`
  }
}

/** Why an animal lives alone. */
export function aloneWords(isAlone: boolean): string {
  return isAlone ? 'Alone: shares with nobody' : 'May share with its own kind'
}

function anOf(type: HousingType): string {
  const words = housingWords(type)
  if (type === 'isolation' || type === 'intensive-care') return words
  return /^[aeiou]/.test(words) ? `an ${words}` : `a ${words}`
}

function metres(length: number): string {
  return `${Math.round(length * 10) / 10} m`
}
