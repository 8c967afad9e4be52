/** Turns on the duty line: the last days handed over by the three coordinators, and Marit Sollwyn on it tonight. */
import { dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import type { Row } from '../load/bulk.ts'
import { personIdOf } from './people.ts'

const MS_PER_HOUR = 3_600_000
const MORNING_HOUR = 8
const EVENING_HOUR = 20
/** Whoever sets the demonstration up has this long before the line wants handing over. */
const AHEAD_HOURS_MIN = 3
const TURNS_BEFORE = 6
const TONIGHT = 'Marit Sollwyn'
const BEFORE = ['Joss Penhaddon', 'Emrik Tallowby', TONIGHT] as const

/** Rows of line_turn as of an instant; the last one runs. */
export function lineRows(now: Date, zone: string): Row[] {
  const until = turnEnd(now, zone)
  const rows: Row[] = []
  let endedAt: Date | null = null
  let takenAt = turnBefore(until, now)
  for (let nth = 0; nth <= TURNS_BEFORE; nth++) {
    rows.unshift({
      holder_id: personIdOf(nth === 0 ? TONIGHT : (BEFORE[(nth - 1) % BEFORE.length] ?? TONIGHT)),
      taken_at: takenAt,
      until_at: endedAt ?? until,
      how: nth === TURNS_BEFORE ? 'taken-up' : 'accepted',
      ended_at: endedAt,
    })
    endedAt = takenAt
    takenAt = new Date(takenAt.getTime() - 12 * MS_PER_HOUR)
  }
  return rows
}

/** The next change of turns that is not too near. */
function turnEnd(now: Date, zone: string): Date {
  const today = dayOfInstant(now, zone)
  const changes = [today, today + 1].flatMap(day =>
    [MORNING_HOUR, EVENING_HOUR].map(hour => new Date(startOfDay(day, zone).getTime() + hour * MS_PER_HOUR)),
  )
  const least = now.getTime() + AHEAD_HOURS_MIN * MS_PER_HOUR
  return changes.find(change => change.getTime() >= least) ?? new Date(least)
}

/** When tonight's turn began: a turn before its end, and before now. */
function turnBefore(until: Date, now: Date): Date {
  return new Date(Math.min(until.getTime() - 12 * MS_PER_HOUR, now.getTime() - MS_PER_HOUR))
}
