/**
 * Where an animal can live and how free it is there: housing types, care stages, sizes.
 * Promise: the closed lists that every table, form and forecast uses. Sizes: aviaries by flight length in metres,
 * everything else by size rank 1 to 9 (reference: species, "size_rank").
 */

export const HOUSING_TYPES = [
  'intensive-care',
  'isolation',
  'hospital-cage',
  'indoor-pen',
  'sheltered-aviary',
  'flight-aviary',
  'pool-pen',
  'outdoor-pen',
] as const
export type HousingType = (typeof HOUSING_TYPES)[number]

export const CARE_STAGES = [
  'critical care',
  'quarantine',
  'restricted activity',
  'limited activity',
  'unlimited activity',
  'overwintering',
] as const
export type CareStage = (typeof CARE_STAGES)[number]

/** Steps of flight length, in metres, by which aviaries are ordered (reference: species). */
export const FLIGHT_STEPS_M = [3.6, 5, 10, 15, 30.5] as const

/** Whether a housing type is ordered by flight length rather than by size rank. */
export function isOrderedByFlight(type: HousingType): boolean {
  return type === 'sheltered-aviary' || type === 'flight-aviary'
}

/** How a stage of care ends for an animal. */
export const EXITS = ['onward', 'died', 'euthanased', 'left'] as const
export type Exit = (typeof EXITS)[number]

/** A record with one value an exit. */
export function newByExit<T>(make: (exit: Exit) => T): Record<Exit, T> {
  return { onward: make('onward'), died: make('died'), euthanased: make('euthanased'), left: make('left') }
}

/** The exits that no gate bars: a check, a clinic's days or a date hold back going onward alone. */
export const UNBARRED = ['died', 'euthanased', 'left'] as const satisfies readonly Exit[]
