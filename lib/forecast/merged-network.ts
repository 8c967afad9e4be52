/**
 * The whole network taken as one centre, for judging what will be wanted whoever takes it.
 * Promise: pure. One centre takes what any takes and has every enclosure; nothing is shut, kept or being cleaned, and all
 * animals are there. So what is counted are animals in want of a kind of place, by the stocking of all its enclosures.
 */
import type { LearnedRates } from '#lib/domain/learned-arrivals.ts'
import type { CentreState, NetworkState, ResidentState } from '#lib/domain/network-state.ts'
import { groupBy } from '#lib/kernel/group-by.ts'

/** The number of the one centre. */
export const WHOLE_NETWORK = 1

/** The network as one centre. */
export function mergedNetwork(state: NetworkState): NetworkState {
  return {
    ...state,
    centres: [mergedCentre(state.centres)],
    travel: [],
    enclosures: state.enclosures.map(one => ({ ...one, centreId: WHOLE_NETWORK, turnaroundMin: 0 })),
    closures: [],
    claims: [],
    residents: state.residents.map(mergedResident),
    arrivals: mergedArrivals(state.arrivals),
  }
}

/** An animal in the one centre, in no enclosure of it and bound to none. */
export function mergedResident(resident: ResidentState): ResidentState {
  return {
    ...resident,
    centreId: WHOLE_NETWORK,
    enclosureId: null,
    stages: resident.stages.map(stage => ({ ...stage, centreId: null })),
  }
}

/** What was learned of a group's arrivals, all of which come to the one centre. */
export function mergedRates<T extends Pick<LearnedRates, 'shares'>>(rates: T): T {
  const all = [{ centreId: WHOLE_NETWORK, share: 1 }]
  return { ...rates, shares: { winter: all, spring: all, summer: all, autumn: all } }
}

function mergedCentre(centres: readonly CentreState[]): CentreState {
  return {
    id: WHOLE_NETWORK,
    name: '',
    about: '',
    phone: '',
    latitude: 0,
    longitude: 0,
    nightDoor: 'staffed',
    nightName: null,
    nightPhone: null,
    countedAt: null,
    hours: [],
    takes: [...new Set(centres.flatMap(({ takes }) => takes))].sort(),
    offers: [],
    stop: null,
    noMoreUntil: null,
    feeding: null,
  }
}

/** The usual years of a group as one, each centre's months and sizes counting by its animals. */
function mergedArrivals(rows: NetworkState['arrivals']): NetworkState['arrivals'] {
  const expected = rows.filter(row => row.animalsPerYear > 0)
  return [...groupBy(expected, ({ group }) => group)].map(([group, same]) => {
    const animalsPerYear = same.reduce((sum, row) => sum + row.animalsPerYear, 0)
    const mean = (of: (row: (typeof same)[number]) => readonly number[]) =>
      Array.from({ length: Math.max(...same.map(row => of(row).length)) }, (_, i) =>
        same.reduce((sum, row) => sum + (of(row)[i] ?? 0) * (row.animalsPerYear / animalsPerYear), 0),
      )
    return {
      centreId: WHOLE_NETWORK,
      group,
      animalsPerYear,
      monthShares: mean(row => row.monthShares),
      eventSizes: mean(row => row.eventSizes),
    }
  })
}
