/**
 * What stands against the release of one animal, from its checks, implants, species and season.
 * Promise: the same answer for a plan, which it refuses, and for a fact, beside which it is kept. Internal to lib/service.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { getCasualtyHead, listChecks } from '#lib/db/casualty.ts'
import { listStageFacts } from '#lib/db/casualty-happened.ts'
import { listSeasons } from '#lib/db/season.ts'
import { listImplants } from '#lib/db/surgery.ts'
import type { DayNumber } from '#lib/domain/day.ts'
import { type Bar, barsAgainst } from '#lib/domain/release.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { readTrade } from './network.ts'

export type BarsOf = { readonly reference: string; readonly bars: readonly Bar[] }

/** The bars of an animal on a day. */
export async function barsOf(
  grant: Grant<'casualty.read'>,
  casualtyId: number,
  day: DayNumber,
): Promise<BarsOf> {
  const [trade, head, checks, facts, implants] = await Promise.all([
    readTrade(),
    getCasualtyHead(grant, casualtyId),
    listChecks(grant, casualtyId),
    listStageFacts(grant, casualtyId),
    listImplants(grant, casualtyId),
  ])
  const species = speciesOf(trade, head.species)
  const seasons = await listSeasons(grant, head.species)
  const laws = trade.keys.filter(({ kind, key }) => kind === 'licence' && species.licence_keys.includes(key))
  const stageNo = Math.max(1, ...facts.filter(({ kind }) => kind === 'began').map(fact => fact.stageNo))
  return { reference: head.reference, bars: barsAgainst({ checks, stageNo, implants, laws, seasons }, day) }
}
