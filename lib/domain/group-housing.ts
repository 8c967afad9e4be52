/**
 * The housing of a group at each stage of care, the preferred kind first, and who lives otherwise once it is changed.
 * Promise: quarantine is isolation whatever is typed. A stage that names no kind is housed as its care plan says.
 */
import type { Broken } from './breaking.ts'
import { CARE_STAGES, type CareStage, HOUSING_TYPES, type HousingType } from './housing.ts'

export type GroupHousing = Readonly<Partial<Record<CareStage, readonly HousingType[]>>>

/** The stages whose housing a group has a say in. */
export const HOUSED_STAGES = CARE_STAGES.filter(stage => stage !== 'quarantine')

type Typed = Readonly<Record<string, HousingType | null>>

/** What two answers a stage say: the preferred kind, and what serves as well. */
export function housedFrom(first: Typed, otherwise: Typed): GroupHousing {
  const housed: Partial<Record<CareStage, readonly HousingType[]>> = { quarantine: ['isolation'] }
  for (const stage of HOUSED_STAGES) {
    const kinds = HOUSING_TYPES.filter(type => type === first[stage] || type === otherwise[stage])
    if (kinds.length > 0) housed[stage] = kinds[0] === first[stage] ? kinds : kinds.toReversed()
  }
  return housed
}

/** An animal of the group in a place or promised one, the stage it is in and the kind of housing. */
export type HousedAnimal = Omit<Broken, 'kind'> & {
  readonly isPromise: boolean
  readonly stage: CareStage
  readonly housing: HousingType
}

/** Those whose kind of housing the group had at their stage and has no longer. Their places and plans stay. */
export function housedOtherwise(
  before: GroupHousing,
  after: GroupHousing,
  animals: readonly HousedAnimal[],
): Broken[] {
  return animals
    .filter(({ stage, housing }) => {
      const kinds = after[stage] ?? []
      return kinds.length > 0 && !kinds.includes(housing) && before[stage]?.includes(housing) === true
    })
    .map(({ isPromise, stage: _stage, housing: _housing, ...one }) => ({
      ...one,
      kind: isPromise ? 'kept otherwise' : 'housed otherwise',
    }))
}
