/**
 * Refuses a change of setup that would take somebody's place away. Promise: the refusal names who they are.
 */
import { type InTheWay, namesOf, type Occupant } from '#lib/domain/occupant.ts'
import { Failure } from '#lib/kernel/failure.ts'
import {
  ASKED_LINE,
  inTheWayLine,
  type OccupiedChange,
  occupiedWords,
  staysOnWords,
} from '#lib/words/setup-refusal.ts'

/** No rows: throws unless nobody is in or promised. */
export function refuseOccupied(occupants: readonly Occupant[], change: OccupiedChange): void {
  if (occupants.length === 0) return
  throw new Failure('rule', { rule: 'occupied', data: { say: occupiedWords(change, namesOf(occupants)) } })
}

/**
 * No rows: switching off is refused with all that stand in its way: who is in, for whom a place is kept, and for whom
 * it is asked and has not answered.
 */
export function refuseSwitchOff(occupants: readonly Occupant[], asked: readonly string[]): void {
  if (occupants.length === 0 && asked.length === 0) return
  const { inside, promised } = namesOf(occupants)
  const lines: InTheWay[] = [
    ...occupants.map(one => ({ reference: one.reference, say: inTheWayLine(one) })),
    ...asked.map(reference => ({ reference, say: ASKED_LINE })),
  ]
  throw new Failure('rule', {
    rule: 'occupied',
    data: {
      say: staysOnWords({ inside: inside.length, promised: promised.length, asked: asked.length }),
      inTheWay: lines,
    },
  })
}
