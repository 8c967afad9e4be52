/**
 * Refuses a change of setup that would take somebody's place away. Promise: the refusal names who they are.
 */
import { namesOf, type Occupant } from '#lib/domain/occupant.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { type OccupiedChange, occupiedWords } from '#lib/words/setup-refusal.ts'

/** No rows: throws unless nobody is in or promised. */
export function refuseOccupied(occupants: readonly Occupant[], change: OccupiedChange): void {
  if (occupants.length === 0) return
  throw new Failure('rule', { rule: 'occupied', data: { say: occupiedWords(change, namesOf(occupants)) } })
}
