/**
 * What a centre lets the desk fill without asking, group by group.
 * Promise: what is on the way to it, or came since it was counted, is taken off; never below nought.
 */
import type { CentreState, NetworkState, ResidentState } from '#lib/domain/network-state.ts'
import { speciesOf, type Trade } from '#lib/domain/trade.ts'

const MS_PER_DAY = 86_400_000

/** Whether a centre's standing offer for the group of an animal has a place left. */
export function isOffered(
  centreId: number,
  resident: ResidentState,
  { state, trade }: { readonly state: NetworkState; readonly trade: Trade },
  now: Date,
): boolean {
  const centre = state.centres.find(({ id }) => id === centreId)
  if (centre === undefined) return false
  const group = speciesOf(trade, resident.species).group_slug
  return (offerOf(centre, group, state, trade, now)?.left ?? 0) > 0
}

/** What the desk may still fill at a centre for a group: its offer less what is on the way or came since its count. */
export function offerOf(centre: CentreState, group: string, state: NetworkState, trade: Trade, now: Date) {
  const offer = centre.offers.find(one => one.group === group)
  if (offer === undefined) return null
  const since = Math.max(centre.countedAt?.getTime() ?? 0, now.getTime() - MS_PER_DAY)
  const enclosures = new Set(state.enclosures.filter(one => one.centreId === centre.id).map(one => one.id))
  const isOfGroup = (species: string) => speciesOf(trade, species).group_slug === group
  const used = state.residents.filter(resident => {
    if (!isOfGroup(resident.species)) return false
    const isHeld = state.claims.some(
      claim => claim.kind === 'hold' && claim.casualtyId === resident.id && enclosures.has(claim.enclosureId),
    )
    return isHeld || (resident.centreId === centre.id && resident.since.getTime() > since)
  }).length
  return { places: offer.places, left: Math.max(0, offer.places - used) }
}
