/**
 * The snapshots of one moment: tonight's network, its housing, and the trade's knowledge.
 * Promise: each is one statement, so its revision and its data belong together. Read through the schemas of lib/domain.
 */
import 'server-only'
import { z } from 'zod'
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

/** Words that count, the first said first. */
const wordOfAnimal = z.object({ id: z.int(), no: z.int(), at: z.coerce.date(), inDays: z.int() })
const admission = z.object({ id: z.int(), at: z.coerce.date(), planIds: z.array(z.string()) })

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
    { snapshot: unknown; words: unknown; admissions: unknown; vets: unknown }[]
  >`
    select network_snapshot(${at}::timestamptz) as snapshot, centre_words(${at}::timestamptz) as words,
           (select coalesce(json_agg(json_build_object('id', w.casualty_id, 'at', a.at, 'planIds', coalesce(to_json(
                (select p.plan_ids from casualty_plan p where p.casualty_id = w.casualty_id order by p.version_no desc limit 1)), '[]'))), '[]')
              from whereabouts w
              -- Asked animal by animal: as a plain join it would read every casualty there ever was.
              cross join lateral (select x.arrival_id from casualty x where x.id = w.casualty_id offset 0) c
              cross join lateral (select y.at from arrival y where y.id = c.arrival_id offset 0) a
             where w.until is null and w.keeper <> 'nobody') as admissions,
           (select coalesce(json_agg(json_build_object('id', w.casualty_id, 'no', v.stage_no, 'at', v.at, 'inDays', v.in_days)
                order by v.at, v.id), '[]')
              from whereabouts w join vet_word_now v on v.casualty_id = w.casualty_id
             where w.until is null and w.keeper <> 'nobody' and v.counts) as vets`
  const seen = networkTonight.parse(rows[0]?.snapshot)
  const words = centreWord.array().parse(rows[0]?.words)
  const admissionById = new Map(
    admission
      .array()
      .parse(rows[0]?.admissions)
      .map(one => [one.id, one]),
  )
  const vets = wordOfAnimal.array().parse(rows[0]?.vets)
  return {
    ...seen,
    residents: seen.residents.map(resident => {
      const admitted = admissionById.get(resident.id)
      const word = vets.findLast(({ id, no }) => id === resident.id && no === resident.began?.no)
      return {
        ...resident,
        planIds: admitted?.planIds ?? [],
        admittedAt: admitted?.at ?? null,
        word: word === undefined ? null : { no: word.no, at: word.at, inDays: word.inDays },
      }
    }),
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
