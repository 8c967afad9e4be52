/**
 * How much of each kind is set up and switched on; arrivals as animals a year.
 */
import type { Preset } from './policy.ts'

export type SetupWord =
  | 'centres'
  | 'rooms'
  | 'enclosures'
  | 'closures'
  | 'stops'
  | 'companies'
  | 'groups'
  | 'species'
  | 'rules'
  | 'seasons'
  | 'conditions'
  | 'places'
  | 'practices'
  | 'drivers'
  | 'arrivals'
  | 'plans'
  | 'policy'
  | 'people'

export type SetupCounts = Readonly<Record<Exclude<SetupWord, 'policy'>, number>> & {
  readonly preset: Preset
}
