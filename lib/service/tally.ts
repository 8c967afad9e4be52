/**
 * How the cases of the year stand: in care, or ended and how; animals and arrivals apart.
 * Promise: the lines add up to what was admitted, for a carer to what her own centres took first.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listTally, type TallyLine } from '#lib/db/tally.ts'
import { dateOfDay, dayOfDate, dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import { OUTCOMES } from '#lib/domain/outcome.ts'
import { momentOf } from './about-casualty.ts'

export type Stands = Pick<TallyLine, 'state' | 'animals' | 'arrivals'>
export type Tally = {
  readonly year: number
  readonly lines: readonly Stands[]
  readonly admitted: Omit<Stands, 'state'>
}

/** Of everything admitted since 1 January. */
export async function readTally(actor: Actor, now: Date): Promise<Tally> {
  const grant = demand(actor, 'casualty.read')
  const { zone } = await momentOf(now)
  const year = Number(dateOfDay(dayOfInstant(now, zone)).slice(0, 4))
  const rows = await listTally(grant, startOfDay(dayOfDate(`${year}-01-01`), zone), now)
  const sum = (of: readonly TallyLine[], what: 'animals' | 'arrivals') =>
    of.reduce((all, line) => all + line[what], 0)
  const lines = (['in care', ...OUTCOMES] as const).flatMap(state => {
    const own = rows.filter(line => line.state === state)
    return own.length === 0 ? [] : [{ state, animals: sum(own, 'animals'), arrivals: sum(own, 'arrivals') }]
  })
  return { year, lines, admitted: { animals: sum(rows, 'animals'), arrivals: sum(rows, 'arrivals') } }
}
