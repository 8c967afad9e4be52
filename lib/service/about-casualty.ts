/**
 * The frame of every fact and plan about one casualty: who may, by which clock it was said, one entry, and which
 * promises it broke. Internal to lib/service.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand, type Grant, type Row } from '#lib/authz/demand.ts'
import type { Permission } from '#lib/authz/policy.ts'
import { type EntryTx, type FactSql, inEntry, writeEntry, writeFact } from '#lib/db/entry.ts'
import { listBroken } from '#lib/db/hold.ts'
import { getCentreOfEnclosure, getReach, isUnderway } from '#lib/db/keeping.ts'
import { readZone } from '#lib/db/network-facts.ts'
import type { BrokenHold } from '#lib/domain/hold-cause.ts'
import type { Moment } from '#lib/domain/parse.ts'

/** What was recorded, and which kept places it took away. */
export type Recorded<T = void> = { readonly made: T; readonly broken: readonly BrokenHold[] }

/**
 * What else belongs into the same commit: looks before, runs the work, writes after. The key makes sure that the same
 * thing, sent twice, is recorded once.
 */
export type Along = {
  readonly deviceKey?: string
  readonly around?: <T>(entry: EntryTx, work: () => Promise<T>) => Promise<T>
}

export type About<P extends Permission> = {
  readonly permission: P
  readonly casualtyId: number
  /** Whom it concerns, where that was read with what names it. */
  readonly reach?: Required<Row>
  readonly action: string
  readonly columns?: readonly string[]
  readonly reason?: string | undefined
  /** Where the animal goes, when that is a centre: its people may record it too, unless another keeps it. */
  readonly toCentreId?: number | undefined
  /** Words that take nobody's place: no kept place is looked for that they broke. */
  readonly isWordsOnly?: boolean
  /** What is said of it follows from what was said before: others' words of it wait. Facts of keeping lock for themselves. */
  readonly isHeld?: boolean
} & Along

/** System: how times are read now. */
export async function momentOf(now: Date): Promise<Moment> {
  return { zone: await readZone(demand(systemActor('clock'), 'system.run')), now }
}

/** The right to do this to this casualty, for people of the centres and practices it concerns. */
export async function demandOn<P extends Permission>(
  actor: Actor,
  {
    permission,
    casualtyId,
    toCentreId,
    reach: known,
  }: Pick<About<P>, 'permission' | 'casualtyId' | 'toCentreId' | 'reach'>,
): Promise<Grant<P>> {
  const system = demand(systemActor('reach of a casualty'), 'system.run')
  const reach = known ?? (await getReach(system, casualtyId))
  // Whoever names her own centre as where it goes must not get at what another centre has.
  const isNew = toCentreId !== undefined && !reach.centreIds.includes(toCentreId)
  const isOpen = isNew && (await isUnderway(system, casualtyId))
  return demand(actor, permission, isOpen ? { ...reach, centreIds: [...reach.centreIds, toCentreId] } : reach)
}

/** System: the centre an enclosure belongs to. */
export function centreOf(enclosureId: number): Promise<number> {
  return getCentreOfEnclosure(demand(systemActor('centre of an enclosure'), 'system.run'), enclosureId)
}

/** Demands the right, then runs the work in one entry and says which promises it broke. */
export async function record<P extends Permission, T>(
  actor: Actor,
  about: About<P>,
  now: Date,
  work: (entry: EntryTx, grant: Grant<P>) => Promise<T>,
): Promise<Recorded<T>> {
  const grant = await demandOn(actor, about)
  const { casualtyId, isWordsOnly, isHeld, around } = about
  return inEntry(
    grant,
    { ...entryOf(about, now), holds: isHeld === true ? casualtyId : undefined },
    async entry => ({
      made: await (around === undefined ? work(entry, grant) : around(entry, () => work(entry, grant))),
      broken: isWordsOnly === true ? [] : await listBroken(entry, now),
    }),
  )
}

/** Words that are one fact and follow from nothing: right and entry as above, in one statement unless more goes along. */
export async function recordAtOnce<P extends Permission>(
  actor: Actor,
  about: Omit<About<P>, 'isWordsOnly' | 'isHeld'>,
  now: Date,
  fact: FactSql,
): Promise<Recorded> {
  if (about.around !== undefined) {
    return record(actor, { ...about, isWordsOnly: true }, now, entry => writeFact(entry, fact))
  }
  const grant = await demandOn(actor, about)
  await writeEntry(grant, entryOf(about, now), fact)
  return { made: undefined, broken: [] }
}

function entryOf(
  {
    action,
    casualtyId,
    columns,
    reason,
    deviceKey,
  }: Pick<About<Permission>, 'action' | 'casualtyId' | 'columns' | 'reason' | 'deviceKey'>,
  now: Date,
) {
  return {
    now,
    action,
    subject: 'casualty',
    subjectId: casualtyId,
    ...(columns && { columns }),
    ...(reason !== undefined && { reason }),
    ...(deviceKey !== undefined && { deviceKey }),
  }
}
