/**
 * Groups: animals of several arrivals put together and counted as one, parted again, one of them told from the others.
 * Promise: none is lost and none counted twice, whoever else writes; arrival, stays and outcome stay each animal's own.
 * What may not share an enclosure is refused by name; each step can be taken back and stays readable.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { lockGroups } from '#lib/db/batch.ts'
import type { EntryTx } from '#lib/db/entry.ts'
import { recordFacts } from '#lib/db/keeping.ts'
import {
  countPlaced,
  createBatch,
  type Line,
  listEarlier,
  listMovesOf,
  listStanding,
  nextMemberNo,
  writeLines,
} from '#lib/db/membership.ts'
import {
  type Beside,
  cameFrom,
  chooseSome,
  type Earlier,
  joiningInput,
  joinRefusal,
  partingInput,
  tellingInput,
} from '#lib/domain/group.ts'
import { parse } from '#lib/domain/parse.ts'
import { idInput } from '#lib/domain/record.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { type Recorded, record } from './about-casualty.ts'

const about = (casualtyId: number, action: string, columns: readonly string[]) =>
  ({ permission: 'casualty.record', casualtyId, action, columns }) as const

/** Puts this one and those beside it, or so many of them, together with another group; returns who went over. */
export async function joinGroup(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<readonly number[]>> {
  const { withId, count } = parse(joiningInput, input)
  return record(actor, about(casualtyId, 'put together', ['batch_id', 'enclosure_id']), now, async entry => {
    const [beside = [], others = []] = await lockGroups(entry, [casualtyId, withId])
    const joiners = count === undefined ? beside : chooseSome(beside, count)
    if (joiners === undefined) throw new Failure('rule', { rule: 'not-so-many-beside', field: 'count' })
    const rule = joinRefusal(joiners, others)
    if (rule !== undefined) throw new Failure('rule', { rule, field: 'withId' })
    await writeLines(entry, await joinLines(entry, joiners, others))
    await goTo(entry, joiners, others[0]?.enclosureId ?? null, now)
    return joiners.map(({ id }) => id)
  })
}

async function joinLines(entry: EntryTx, joiners: readonly Beside[], others: readonly Beside[]) {
  const [first] = others
  if (first === undefined) return []
  const isNew = first.batchId === null
  const batchId = first.batchId ?? (await createBatch(entry, first.arrivalId))
  const next = isNew ? 2 : await nextMemberNo(entry, batchId)
  const lines: Line[] = joiners.map((of, at) => ({
    of,
    to: { batchId, memberNo: next + at, toldBy: of.toldBy },
    kind: 'joined',
    withId: first.id,
  }))
  const [joiner] = joiners
  if (isNew) {
    const to = { batchId, memberNo: 1, toldBy: first.toldBy }
    lines.push({ of: first, to, kind: 'joined', withId: joiner?.id })
  }
  return lines
}

/** They go where the others are; unlike a fact, this waits for a place for each of them. */
async function goTo(entry: EntryTx, joiners: readonly Beside[], enclosureId: number | null, now: Date) {
  const going = joiners.filter(one => one.enclosureId !== enclosureId)
  if (going.length === 0) return
  const facts = going.map(({ id, centreId }) => ({
    casualtyId: id,
    since: now,
    keeper: 'centre' as const,
    centreId: centreId ?? undefined,
    enclosureId: enclosureId ?? undefined,
  }))
  await recordFacts(entry, facts, now)
  if (enclosureId === null) return
  const placed = await countPlaced(
    entry,
    going.map(({ id }) => id),
    enclosureId,
    now,
  )
  if (placed < going.length) throw new Failure('rule', { rule: 'group-no-room', field: 'withId' })
}

/** Makes so many a group of their own: the one they came from, where they were all put in together. */
export async function partGroup(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<readonly number[]>> {
  const { count } = parse(partingInput, input)
  return record(actor, about(casualtyId, 'parted', ['batch_id']), now, async entry => {
    const [beside = []] = await lockGroups(entry, [casualtyId])
    if (beside.length < 2) throw new Failure('rule', { rule: 'not-one-of-several' })
    const parted = chooseSome(beside, count)
    if (parted === undefined) throw new Failure('rule', { rule: 'not-so-many-beside', field: 'count' })
    if (parted.length === beside.length)
      throw new Failure('rule', { rule: 'group-parts-some', field: 'count' })
    const to = await partedTo(entry, parted)
    const lines = parted.flatMap((of, at): Line[] => {
      const counted = to[at]
      return counted === undefined ? [] : [{ of, to: { ...counted, toldBy: of.toldBy }, kind: 'parted' }]
    })
    await writeLines(entry, lines)
    return parted.map(({ id }) => id)
  })
}

async function partedTo(entry: EntryTx, parted: readonly Beside[]): Promise<readonly Earlier[]> {
  const earlier = await listEarlier(
    entry,
    parted.map(({ id }) => id),
  )
  const back = cameFrom(earlier)
  if (back !== undefined) return back
  const [first] = parted
  if (first === undefined || parted.length === 1) return [{ batchId: null, memberNo: null }]
  const batchId = await createBatch(entry, first.arrivalId)
  return parted.map((_, at) => ({ batchId, memberNo: at + 1 }))
}

/** Says by what this one can be told from the others: from then on no count means it. */
export async function tellApart(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<void>> {
  const { toldBy } = parse(tellingInput, input)
  return record(actor, about(casualtyId, 'told apart', ['told_by']), now, async entry => {
    const [beside = []] = await lockGroups(entry, [casualtyId])
    const of = beside.find(({ id }) => id === casualtyId)
    if (of === undefined || of.batchId === null) throw new Failure('rule', { rule: 'not-one-of-several' })
    if (of.toldBy === toldBy) return
    await writeLines(entry, [
      { of, to: { batchId: of.batchId, memberNo: of.memberNo, toldBy }, kind: 'told-apart' },
    ])
  })
}

/** Takes back how it was regrouped, with all who were regrouped with it and nobody has regrouped since. */
export async function takeBackGrouping(
  actor: Actor,
  casualtyId: number,
  lineId: unknown,
  now: Date,
): Promise<Recorded<readonly number[]>> {
  const id = parse(idInput, lineId)
  return record(
    actor,
    about(casualtyId, 'regrouping taken back', ['batch_id', 'is_void']),
    now,
    async entry => {
      await lockGroups(entry, [casualtyId])
      const { entryId, standing } = await listStanding(entry, casualtyId, id)
      const lines = standing.map(
        (row): Line => ({
          of: { id: row.casualtyId, batchId: row.batchId, memberNo: row.memberNo, toldBy: row.toldBy },
          to: { batchId: row.wasBatchId, memberNo: row.wasMemberNo, toldBy: row.wasToldBy },
          kind: 'taken-back',
          supersedes: row.id,
        }),
      )
      await writeLines(entry, lines)
      const ids = standing.map(row => row.casualtyId)
      const moves = await listMovesOf(entry, entryId, ids)
      if (moves.length > 0) {
        const voids = moves.map(move => ({
          casualtyId: move.casualtyId,
          supersedes: move.id,
          isVoid: true as const,
        }))
        await recordFacts(entry, voids, now)
      }
      return ids
    },
  )
}
