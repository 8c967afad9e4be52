/**
 * What came of all that was forecast: how many enclosures of each kind all animals wanted at the end of each day that is
 * over, as records tell now.
 * Promise: counted by the engine's own rules for who wants which place; each animal's way is worked out once.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { listPastAnimals } from '#lib/db/past-network.ts'
import { type DayNumber, startOfDay } from '#lib/domain/day.ts'
import type { NetworkState, ResidentState } from '#lib/domain/network-state.ts'
import { residentsAt } from '#lib/domain/past-resident.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { itineraryOf } from '#lib/forecast/itineraries.ts'
import { mergedNetwork, mergedResident } from '#lib/forecast/merged-network.ts'
import { poolsOf } from '#lib/forecast/pools.ts'
import { listSeries, presentDemand, type Wanted, wantedNow } from '#lib/forecast/present-demand.ts'
import type { Truth } from './judge-origin.ts'

/** Days that are counted before others of this process may work. */
const DAYS_AT_ONCE = 30

type Span = {
  readonly from: DayNumber
  readonly asOf: DayNumber
  readonly revision: number
  readonly signal?: AbortSignal
}

/** The counts of days `from` up to, not with, `asOf`, by facts up to a revision. */
export async function readTruth(
  grant: Grant<'system.run'>,
  { state, trade }: { readonly state: NetworkState; readonly trade: Trade },
  { from, asOf, revision, signal }: Span,
): Promise<Truth> {
  const animals = await listPastAnimals(grant, revision, null)
  const merged = mergedNetwork({ ...state, residents: [] })
  const pools = poolsOf(merged, from, 1)
  const counts = new Map(listSeries(pools).map(series => [series, new Int32Array(asOf - from)]))
  // What a place must be does not depend on how long a stage takes.
  const plans = { ...trade, learned: new Map() }
  const known = new Map<string, Wanted | undefined>()
  const wantedBy = (resident: ResidentState, at: Date) => {
    const key = `${resident.id}|${resident.began?.no}|${resident.ready?.no}`
    if (known.has(key)) return known.get(key)
    const itinerary = itineraryOf(mergedResident(resident), merged, plans, pools, from, at)
    const wanted = itinerary === undefined ? undefined : wantedNow(itinerary, pools)
    known.set(key, wanted)
    return wanted
  }
  for (let day = from; day < asOf; day++) {
    const at = startOfDay(day + 1, state.zone)
    const wanted = residentsAt(animals, at).flatMap(resident => wantedBy(resident, at) ?? [])
    const demand = presentDemand(wanted)
    for (const [series, byDay] of counts) byDay[day - from] = demand.get(series) ?? 0
    if ((day - from) % DAYS_AT_ONCE !== 0) continue
    await new Promise(done => setImmediate(done))
    signal?.throwIfAborted()
  }
  return { from, counts }
}
