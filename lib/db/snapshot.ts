/**
 * The snapshots of one moment: tonight's network, its housing, and the trade's knowledge.
 * Promise: each is one statement, so its revision and its data belong together. Read through the schemas of lib/domain.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { centreWord } from '#lib/domain/centre-word.ts'
import { type Knowledge, knowledge } from '#lib/domain/knowledge.ts'
import {
  type HousingState,
  housingState,
  type NetworkTonight,
  networkTonight,
} from '#lib/domain/network-state.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'

/** The counters that say whether a snapshot is still the newest. */
export async function readRevisions(
  _grant: Grant<'system.run'>,
): Promise<{ readonly revision: number; readonly knowledgeRevision: number }> {
  const network = await db().network.findFirst({ select: { revision: true, knowledgeRevision: true } })
  if (network === null) throw new Failure('rule', { rule: 'network-not-set-up' })
  return network
}

/** The network as it stands at an instant. */
export async function readNetworkTonight(_grant: Grant<'system.run'>, at: Date): Promise<NetworkTonight> {
  const rows = await db().$queryRaw<
    { snapshot: unknown; words: unknown }[]
  >`select network_snapshot(${at}::timestamptz) as snapshot, centre_words(${at}::timestamptz) as words`
  const seen = networkTonight.parse(rows[0]?.snapshot)
  const words = centreWord.array().parse(rows[0]?.words)
  return {
    ...seen,
    centres: seen.centres.map(centre => {
      const said = (kind: string) => words.find(one => one.centreId === centre.id && one.kind === kind)
      const feeding = said('feeding-rounds')
      return {
        ...centre,
        noMoreUntil: said('no-more')?.until ?? null,
        feeding:
          feeding === undefined || feeding.rounds === null
            ? null
            : { rounds: feeding.rounds, until: feeding.until },
      }
    }),
  }
}

/** The enclosures in use and what each is stocked for. */
export async function readHousing(_grant: Grant<'system.run'>): Promise<HousingState> {
  const rows = await db().$queryRaw<{ snapshot: unknown }[]>`select housing_snapshot() as snapshot`
  return housingState.parse(rows[0]?.snapshot)
}

/** Species, conditions, care plans, cautions, places. */
export async function readKnowledge(_grant: Grant<'system.run'>): Promise<Knowledge> {
  const rows = await db().$queryRaw<{ snapshot: unknown }[]>`select knowledge_snapshot() as snapshot`
  return knowledge.parse(rows[0]?.snapshot)
}
