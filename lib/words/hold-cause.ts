/**
 * Why a place can't be kept: one sentence for each cause, the deciding ones first, times by the network's clock.
 */
import type { HoldCause } from '#lib/domain/hold-cause.ts'
import { constraintWords } from './constraint.ts'
import { dayAndClock } from './dates.ts'

const ORDER = ['hold', 'closed', 'stocking', 'isolation', 'room', 'company', 'taken', 'drying'] as const

/** One sentence a cause; what is in the way several times is said once, until its last end. */
export function causesWords(causes: readonly HoldCause[], zone: string): string[] {
  const last = new Map<string, HoldCause>()
  for (const cause of causes) {
    const key = `${cause.rule} ${cause.reference} ${cause.placeNo}`
    const before = last.get(key)
    if (before === undefined || endOf(cause) > endOf(before)) last.set(key, cause)
  }
  const ranked = [...last.values()].sort((a, b) => rankOf(a) - rankOf(b))
  return [...new Set(ranked.map(cause => causeWords(cause, zone)))]
}

function endOf({ endsAt }: HoldCause): number {
  return endsAt?.getTime() ?? Number.POSITIVE_INFINITY
}

function rankOf({ rule }: HoldCause): number {
  const found = ORDER.findIndex(head => rule.startsWith(head))
  return found < 0 ? ORDER.length : found
}

function causeWords({ rule, reference, placeNo, endsAt, places }: HoldCause, zone: string): string {
  const until = endsAt === null ? 'until further notice' : `until ${dayAndClock(endsAt, zone)}`
  const who = reference ?? 'another animal'
  switch (rule) {
    case 'closed':
      return `The enclosure is closed ${until}`
    case 'drying':
      return `It is drying ${until}`
    case 'taken':
      return placeNo === null ? `${who} has the place ${until}` : `Place ${placeNo} is for ${who} ${until}`
    case 'company':
      return `${who} is in it ${until} and may not share with this animal`
    case 'room':
      return `${who} is in the same room ${until}, where predators and prey are kept apart`
    case 'stocking':
      return places === null
        ? 'The enclosure is not set up for this kind of animal'
        : `The enclosure takes ${places} of this kind`
    case 'isolation':
      return 'Quarantine needs a place in isolation'
    default:
      return constraintWords(rule)?.say ?? 'A rule stands against it'
  }
}
