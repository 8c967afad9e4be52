/**
 * Asks of today: a bird that waits for a surgeon and was put to a practice, which has not answered yet; and an owl
 * that wants a long flight, whose centre was silent. Everybody is invented.
 */
import type { Row } from '../load/bulk.ts'
import { CENTRES } from './centres.ts'
import { PRACTICES } from './outside.ts'

const MS_PER_MINUTE = 60_000
const MS_PER_HOUR = 60 * MS_PER_MINUTE
/** The vet is expected to look before her next morning. */
const VET_WAITS_HOURS = 14
const TURN_MINUTES = 10
const SILENT_MINUTES_AGO = 55

const centreId = (name: string) => CENTRES.findIndex(centre => centre.name === name) + 1
const practiceId = (name: string) => PRACTICES.findIndex(practice => practice.name === name) + 1

type Subjects = {
  /** The first number that no ask has. */
  readonly firstId: number
  readonly referralId: number
  readonly surgical: number
  readonly owl: number
}

/** The rows, in the order in which they refer to each other. */
export function askRows(
  { firstId, referralId, surgical, owl }: Subjects,
  now: Date,
): [table: string, rows: Row[]][] {
  const at = (minutes: number) => new Date(now.getTime() + minutes * MS_PER_MINUTE).toISOString()
  const put = (minutes: number) => ({ put_at: at(minutes), lapses_at: at(minutes + TURN_MINUTES) })
  const silent = -SILENT_MINUTES_AGO
  const vetWaits = {
    put_at: at(-20),
    lapses_at: new Date(now.getTime() + VET_WAITS_HOURS * MS_PER_HOUR).toISOString(),
  }
  return [
    [
      'ask',
      [
        {
          id: firstId,
          referral_id: null,
          casualty_id: owl,
          centre_id: centreId('Farrowmere Flights'),
          practice_id: null,
          state: 'unanswered',
          ...put(silent + TURN_MINUTES),
          seen_at: null,
          answered_at: null,
          answered_by_words: null,
        },
        {
          id: firstId + 1,
          referral_id: referralId,
          casualty_id: surgical,
          centre_id: null,
          practice_id: practiceId('Heskwith Exotics'),
          state: 'put',
          ...vetWaits,
          seen_at: at(-6),
          answered_at: null,
          answered_by_words: null,
        },
      ],
    ],
    [
      'ask_try',
      [
        { ask_id: firstId, try_no: 1, name: 'Corin Esslemay', phone: '07700 900121', ...put(silent) },
        {
          ask_id: firstId,
          try_no: 2,
          name: 'Delphie Harrowgrass',
          phone: '07700 900122',
          ...put(silent + TURN_MINUTES),
        },
        {
          ask_id: firstId + 1,
          try_no: 1,
          name: 'Heskwith Exotics',
          phone: PRACTICES[practiceId('Heskwith Exotics') - 1]?.phone ?? '',
          ...vetWaits,
        },
      ],
    ],
  ]
}
