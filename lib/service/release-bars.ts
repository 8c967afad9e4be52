/**
 * What stands against the release of animals, from their checks, implants, species and season.
 * Promise: the same answer for a plan, which it refuses, and for a fact, beside which it is kept. Internal to lib/service.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { listBarFacts } from '#lib/db/release-bar.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import { type Bar, barsAgainst } from '#lib/domain/release.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { readTrade } from './network.ts'

export type BarsOf = { readonly reference: string; readonly bars: readonly Bar[] }

/** The bars of each of these animals on whatever day is asked for. */
export async function readBars(
  grant: Grant<'casualty.read'>,
  casualtyIds: readonly number[],
): Promise<(casualtyId: number, day: DayNumber) => BarsOf> {
  const [trade, facts] = await Promise.all([readTrade(), listBarFacts(grant, casualtyIds)])
  const byId = new Map(facts.map(one => [one.id, one]))
  return (casualtyId, day) => {
    const known = byId.get(casualtyId)
    if (known === undefined) throw new Failure('not-found')
    const { licence_keys: rules } = speciesOf(trade, known.species)
    const laws = trade.keys.filter(({ kind, key }) => kind === 'licence' && rules.includes(key))
    return { reference: known.reference, bars: barsAgainst({ ...known, laws }, day) }
  }
}

/** The bars of an animal on a day. */
export async function barsOf(
  grant: Grant<'casualty.read'>,
  casualtyId: number,
  day: DayNumber,
): Promise<BarsOf> {
  return (await readBars(grant, [casualtyId]))(casualtyId, day)
}
