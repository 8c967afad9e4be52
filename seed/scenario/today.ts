/** What stands open today: the rounds of each centre, a movement stop, an aviary in repair, a referral. */
import { dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import type { Row } from '../load/bulk.ts'
import { AVERBROOK } from './averbrook.ts'
import { CENTRES, centreIdOf } from './centres.ts'
import { FARROWMERE } from './farrowmere.ts'
import { OSTERSKELD } from './osterskeld.ts'
import { listEnclosures } from './site.ts'

const MS_PER_MINUTE = 60_000
const MS_PER_DAY = 86_400_000
const STOPPED_DAYS_AGO = 6
const CLOSED_DAYS_AGO = 12
const REPAIR_DAYS = 33
/** Days since the last full round and minute of that day, by centre; the one-person centre is behind. */
const ROUNDS: readonly (readonly [daysAgo: number, minute: number])[] = [
  [0, 470],
  [0, 495],
  [0, 510],
  [0, 480],
  [0, 525],
  [3, 1090],
]

export type Round = { readonly centreId: number; readonly at: number }

/** Every full round of every centre from an instant up to now; each ends with its count. */
export function roundsSince(since: number, now: Date, zone: string): Round[] {
  const today = dayOfInstant(now, zone)
  const first = dayOfInstant(new Date(since), zone)
  return CENTRES.flatMap((_, nth) => {
    const [daysAgo, minute] = ROUNDS[nth] ?? [0, 480]
    return Array.from({ length: today - daysAgo - first + 1 }, (__, day) => ({
      centreId: nth + 1,
      at: startOfDay(first + day, zone).getTime() + minute * MS_PER_MINUTE,
    })).filter(({ at }) => at >= since && at < now.getTime())
  })
}

/** Since when the seabird unit neither sends nor receives birds. */
export function birdStopOf(now: Date, zone: string): { readonly centreId: number; readonly since: number } {
  const day = dayOfInstant(now, zone) - STOPPED_DAYS_AGO
  return {
    centreId: centreIdOf(OSTERSKELD),
    since: startOfDay(day, zone).getTime() + 14 * 60 * MS_PER_MINUTE,
  }
}

export type Stop = {
  readonly centreId: number
  readonly since: number
  readonly state: 'no-movement'
  readonly covers: 'bird'
  readonly reason: string
}

export function stopOf(now: Date, zone: string): Stop {
  return {
    ...birdStopOf(now, zone),
    state: 'no-movement',
    covers: 'bird',
    reason: 'Bird flu suspected in two gannets on the beach; the authority has not lifted the stop',
  }
}

export type Closing = {
  readonly at: number
  readonly enclosureId: number
  readonly endsAt: number
  readonly reason: string
}

/** The long flight that a storm has torn. */
export function closingOf(now: Date, zone: string): Closing {
  const day = dayOfInstant(now, zone) - CLOSED_DAYS_AGO
  const centreId = centreIdOf(FARROWMERE)
  const flight = listEnclosures().find(
    one => one.centre_id === centreId && one.name === 'Long flight 1' && one.isForStory,
  )
  if (flight === undefined) throw new RangeError('the story needs a long flight of its own, got none')
  const at = startOfDay(day, zone).getTime() + 9 * 60 * MS_PER_MINUTE
  return {
    at,
    enclosureId: flight.id,
    endsAt: at + REPAIR_DAYS * MS_PER_DAY,
    reason: 'Netting torn by the storm, in repair',
  }
}

/** The only referral that stands open. */
export const REFERRAL_ID = 1

/** The fracture that waits for a surgeon. */
export function referralRows(casualtyId: number, arrivedAt: number): Row[] {
  return [
    {
      id: REFERRAL_ID,
      casualty_id: casualtyId,
      home_centre_id: centreIdOf(AVERBROOK),
      offers: 'Intensive care, then a hospital cage; radiographs are brought to you; a long flight later',
      what: 'Broken humerus: a surgeon of bones, as soon as the bird is fit for it',
      opened_at: new Date(arrivedAt + 80 * MS_PER_MINUTE).toISOString(),
    },
  ]
}
