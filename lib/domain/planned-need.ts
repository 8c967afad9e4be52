/**
 * What an animal in care needs in a stage of its own copy of the plan.
 * Promise: the same kind of need as for a newcomer, from what was stored with the casualty; never re-derived from
 * reference plans that may have changed since.
 */

import { aloneKey, arrivalKey, type PlaceNeed } from './need.ts'
import type { PlannedStage, ResidentState } from './network-state.ts'
import { groupOf, speciesOf, type Trade } from './trade.ts'

/** The need of a resident in one of its planned stages. */
export function plannedNeed(resident: ResidentState, stage: PlannedStage, trade: Trade): PlaceNeed {
  const species = speciesOf(trade, resident.species)
  const housing = [stage.housing, ...stage.housingAlso]
  const needsIsolation = stage.housing === 'isolation'
  return {
    stage: stage.stage,
    housing,
    needsIsolation,
    sizeRank: species.size_rank,
    flightLengthM: species.flight_length_min_m,
    features: stage.features,
    company: resident.company,
    companyKey: resident.isAlone
      ? aloneKey(String(resident.id))
      : needsIsolation
        ? arrivalKey(String(resident.arrivalId), resident.company)
        : resident.company,
    stock: resident.isAlone ? {} : groupOf(trade, species.group_slug).stock,
    preys: species.preys,
  }
}
