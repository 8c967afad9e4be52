/**
 * What place an animal needs in a stage of care, and whether an enclosure is one.
 * Promise: housing in order of preference; sizes by flight length in metres for aviaries and by rank elsewhere;
 * quarantine only in isolation, one arrival at a time; solitary animals alone. Every misfit has its reason.
 */
import type { CombinedStage } from './care-plan-combination.ts'
import { type CareStage, type HousingType, isOrderedByFlight } from './housing.ts'
import type { GroupKnowledge, SpeciesKnowledge } from './knowledge.ts'
import type { EnclosureState } from './network-state.ts'
import type { Age, Preys } from './species.ts'

/** Limited flight asks for about a third of the length that full flight needs. Ours, no source. */
const LIMITED_FLIGHT_SHARE = 1 / 3
/** Adults of seasonal species are apart from a month before their young appear. Common practice, no source. */
const APART_MONTHS_BEFORE_YOUNG = 1
const BREEDING_MONTHS = { from: 3, to: 7 } // common practice, where the species says nothing

export type NeedingAnimal = {
  readonly species: SpeciesKnowledge
  readonly group: GroupKnowledge
  readonly age: Age
  /** Names the animal in company keys; a call that has no casualty yet gives a name of its own. */
  readonly id: string
  readonly arrivalId: string
  /** Month of the year in which it needs the place, 1 to 12. */
  readonly month: number
}

export type PlaceNeed = {
  readonly stage: CareStage
  /** In order of preference; never empty. */
  readonly housing: readonly HousingType[]
  readonly needsIsolation: boolean
  readonly sizeRank: number
  /** Metres of full flight; null: not flown in an aviary. */
  readonly flightLengthM: number | null
  readonly features: readonly string[]
  /** The company whose stocking an enclosure must name. */
  readonly company: string
  /** Who may be in at the same time: the company, `alone:<id>`, or `arrival:<id>:<company>`. */
  readonly companyKey: string
  readonly stock: Readonly<Partial<Record<HousingType, number>>>
  readonly preys: Preys | null
}

/** What one animal needs in one stage of its plan. */
export function placeNeed(animal: NeedingAnimal, stage: CombinedStage): PlaceNeed {
  const housing = housingFor(animal.group, stage)
  const needsIsolation = housing.length === 1 && housing[0] === 'isolation'
  const isAlone = mustBeAlone(animal)
  const company = animal.species.company_slug
  return {
    stage: stage.stage,
    housing,
    needsIsolation,
    sizeRank: animal.species.size_rank,
    flightLengthM: animal.species.flight_length_min_m,
    features: stage.features,
    company,
    companyKey: isAlone
      ? aloneKey(animal.id)
      : needsIsolation
        ? arrivalKey(animal.arrivalId, company)
        : company,
    stock: isAlone ? {} : animal.group.stock,
    preys: animal.species.preys,
  }
}

/** Company key of an animal that must be alone. */
export function aloneKey(id: string): string {
  return `alone:${id}`
}

/** Company key of the animals of one arrival and one company in isolation: kinds apart elsewhere are apart there. */
export function arrivalKey(arrivalId: string, company: string): string {
  return `arrival:${arrivalId}:${company}`
}

/**
 * Whether it may share with nobody: an adult of a solitary species, one of a seasonal species in the breeding months,
 * and a stand-in until it is named. An animal of unknown age is held as an adult.
 */
export function mustBeAlone({
  species,
  age,
  month,
}: Pick<NeedingAnimal, 'species' | 'age' | 'month'>): boolean {
  if (species.is_stand_in) return true
  if (age === 'young') return false
  if (species.adult_alone !== 'season') return species.adult_alone === 'yes'
  const { young_from_month: from, young_to_month: to } = species
  return from === null || to === null
    ? isInMonths(month, BREEDING_MONTHS.from, BREEDING_MONTHS.to)
    : isInMonths(month, ((from - APART_MONTHS_BEFORE_YOUNG + 11) % 12) + 1, to)
}

/**
 * Housing in order of preference. The group knows which housing its animals live in; the plan says how strict the
 * stage is. A plan of the animal's own kind comes first; one for any bird or mammal only orders what the group has.
 */
export function housingFor(group: GroupKnowledge, stage: CombinedStage): HousingType[] {
  if (stage.stage === 'quarantine' || stage.housing === 'isolation') return ['isolation']
  const own = group.housing[stage.stage] ?? []
  const speaksInGeneral = stage.housingFrom.startsWith('any ')
  if (own.length === 0) return [stage.housing]
  if (speaksInGeneral && !own.includes(stage.housing)) return own
  return [stage.housing, ...own.filter(type => type !== stage.housing)]
}

/** How much of one housing type it needs, as the forecast counts it. */
export function sizedNeed(
  need: PlaceNeed,
  housing: HousingType,
): { housing: HousingType; size: number; company: string; stock: number } {
  return {
    housing,
    size: isOrderedByFlight(housing) ? flightNeeded(need, housing) : need.sizeRank,
    company: need.companyKey,
    stock: need.companyKey.startsWith('alone:') ? 1 : (need.stock[housing] ?? 1),
  }
}

export type Misfit =
  | { readonly rule: 'wrong housing'; readonly has: HousingType; readonly wants: readonly HousingType[] }
  | { readonly rule: 'isolation only'; readonly has: HousingType }
  | { readonly rule: 'kept for isolation' }
  | { readonly rule: 'too small'; readonly has: number; readonly needs: number }
  | { readonly rule: 'too short to fly in'; readonly hasM: number; readonly needsM: number }
  | { readonly rule: 'lacks'; readonly feature: string }
  | { readonly rule: 'not set up for'; readonly company: string }

type Enclosure = Pick<EnclosureState, 'housing' | 'sizeRank' | 'lengthM' | 'features' | 'stocking'>

/** Why an enclosure is no proper place for this need; empty when it is one. Whether it is free is another question. */
export function fitsEnclosure(need: PlaceNeed, enclosure: Enclosure): Misfit[] {
  return [
    ...housingMisfits(need, enclosure),
    ...sizeMisfits(need, enclosure),
    ...featureMisfits(need, enclosure),
  ]
}

/** The place of an enclosure in the order of preference, from 0; -1 where its housing is not on the list. */
export function preferenceOf(need: PlaceNeed, enclosure: Pick<Enclosure, 'housing'>): number {
  return need.housing.indexOf(enclosure.housing)
}

function housingMisfits(need: PlaceNeed, { housing }: Enclosure): Misfit[] {
  if (need.housing.includes(housing)) return []
  if (need.needsIsolation) return [{ rule: 'isolation only', has: housing }]
  if (housing === 'isolation') return [{ rule: 'kept for isolation' }]
  return [{ rule: 'wrong housing', has: housing, wants: need.housing }]
}

function sizeMisfits(need: PlaceNeed, enclosure: Enclosure): Misfit[] {
  if (!isOrderedByFlight(enclosure.housing)) {
    const isTooSmall = enclosure.sizeRank < need.sizeRank
    return isTooSmall ? [{ rule: 'too small', has: enclosure.sizeRank, needs: need.sizeRank }] : []
  }
  const needsM = flightNeeded(need, enclosure.housing)
  return enclosure.lengthM < needsM ? [{ rule: 'too short to fly in', hasM: enclosure.lengthM, needsM }] : []
}

function featureMisfits(need: PlaceNeed, enclosure: Enclosure): Misfit[] {
  const lacking = need.features.filter(feature => !hasFeature(enclosure, feature))
  const isStocked = (enclosure.stocking[need.company] ?? 0) > 0
  return [
    ...lacking.map((feature): Misfit => ({ rule: 'lacks', feature })),
    ...(isStocked ? [] : [{ rule: 'not set up for', company: need.company } as const]),
  ]
}

/** A pool pen has a pool and a flight aviary flight, whether or not somebody wrote it down. */
function hasFeature(enclosure: Enclosure, feature: string): boolean {
  return (
    enclosure.features.includes(feature) ||
    (feature === 'pool' && enclosure.housing === 'pool-pen') ||
    (feature === 'flight' && enclosure.housing === 'flight-aviary')
  )
}

function flightNeeded(need: PlaceNeed, housing: HousingType): number {
  const full = need.flightLengthM ?? 0
  return housing === 'sheltered-aviary' && need.stage !== 'unlimited activity'
    ? full * LIMITED_FLIGHT_SHARE
    : full
}

function isInMonths(month: number, from: number, to: number): boolean {
  return from <= to ? month >= from && month <= to : month >= from || month <= to
}
