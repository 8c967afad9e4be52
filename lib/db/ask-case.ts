/**
 * What the page of a link shows: one case as far as it is known, who asks, where it would go.
 * Promise: nothing of the finder, the place it was found or another case; what nobody recorded comes back empty, so
 * that the page can say so.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { AskState } from '#lib/domain/escalation.ts'
import { Failure } from '#lib/kernel/failure.ts'
import type { Prisma } from '#prisma/generated/client.ts'
import { stateOf } from './ask.ts'
import { attachmentSelected, type Picture, pictureOf } from './attachment.ts'
import { db } from './client.ts'
import type { EntryTx } from './entry.ts'
import { noteLinkOpening } from './link.ts'

export type AskCase = {
  readonly askId: number
  readonly state: AskState
  readonly to: { readonly kind: 'centre' | 'practice'; readonly name: string }
  readonly lapsesAt: Date | null
  readonly answeredAt: Date | null
  readonly answeredBy: string | null
  readonly comesAt: Date | null
  readonly reason: string | null
  readonly decisionId: number | null
  readonly optionKey: string | null
  readonly reference: string
  readonly species: string
  readonly scientificName: string | null
  readonly temperament: string
  readonly age: string
  readonly animals: number
  readonly arrivedAt: Date
  readonly isDiseaseSuspect: boolean
  readonly leaveWords: string | null
  readonly findings: readonly { readonly name: string; readonly severity: string; readonly notedAt: Date }[]
  readonly weights: readonly { readonly grams: number; readonly at: Date }[]
  /** The stage of its plan that it is in, and the housing of that stage. */
  readonly stages: readonly {
    readonly stage: string
    readonly housing: string
    readonly centre: string | null
  }[]
  readonly pictures: readonly Picture[]
  readonly heldAt: string | null
  readonly keeper: string | null
  readonly what: string | null
  readonly offers: string
  readonly home: string | null
}

const included = {
  centre: { select: { id: true, name: true } },
  practice: { select: { name: true } },
  referral: { include: { homeCentre: { select: { name: true } } } },
  casualty: {
    include: {
      species: { include: { group: { select: { temperament: true } } } },
      arrival: { select: { at: true, _count: { select: { casualtyByArrivalId: true } } } },
      findingByCasualtyId: {
        where: { isVoid: false, findingBySupersedes: { is: null } },
        orderBy: { id: 'asc' },
        include: { condition: { select: { name: true } } },
      },
      attachmentByCasualtyId: {
        where: { takenBackEntry: null },
        orderBy: [{ at: 'desc' }, { id: 'desc' }],
        select: attachmentSelected,
      },
      weightByCasualtyId: { orderBy: { at: 'asc' }, select: { grams: true, at: true } },
      casualtyPlanByCasualtyId: {
        orderBy: { versionNo: 'desc' },
        take: 1,
        select: {
          casualtyStageByCasualtyPlanId: {
            orderBy: { stageNo: 'asc' },
            select: { stage: true, housingType: true, centre: { select: { name: true } } },
          },
        },
      },
      claimByCasualtyId: {
        where: { kind: 'hold', state: 'live' },
        orderBy: { id: 'asc' },
        select: { enclosure: { select: { name: true, centreId: true } } },
      },
      whereaboutsByCasualtyId: {
        where: { until: null },
        select: { keeper: true, centre: { select: { name: true } } },
      },
    },
  },
} as const satisfies Prisma.AskInclude

/** The case of an ask. */
export async function getAskCase(_grant: Grant<'system.run'>, askId: number): Promise<AskCase> {
  const row = await db().ask.findUnique({ where: { id: askId }, include: included })
  if (row === null) throw new Failure('not-found')
  const { casualty, centre, referral } = row
  const { species } = casualty
  const [where] = casualty.whereaboutsByCasualtyId
  return {
    askId,
    state: stateOf(row.state),
    to: { kind: centre === null ? 'practice' : 'centre', name: centre?.name ?? row.practice?.name ?? '' },
    lapsesAt: row.lapsesAt,
    answeredAt: row.answeredAt,
    answeredBy: row.answeredByWords,
    comesAt: row.comesAt,
    reason: row.reason,
    decisionId: row.decisionId,
    optionKey: row.optionKey,
    reference: casualty.reference,
    species: species.commonName,
    scientificName: species.scientificName,
    temperament: species.group.temperament,
    age: casualty.age,
    animals: row.decisionId === null ? 1 : casualty.arrival._count.casualtyByArrivalId,
    arrivedAt: casualty.arrival.at,
    isDiseaseSuspect: casualty.isDiseaseSuspect,
    leaveWords: casualty.authorityLeaveWords,
    findings: casualty.findingByCasualtyId.map(({ condition, severity, notedAt }) => ({
      name: condition.name,
      severity,
      notedAt,
    })),
    weights: casualty.weightByCasualtyId,
    pictures: casualty.attachmentByCasualtyId.map(pictureOf),
    stages: (casualty.casualtyPlanByCasualtyId[0]?.casualtyStageByCasualtyPlanId ?? []).map(one => ({
      stage: one.stage,
      housing: one.housingType,
      centre: one.centre?.name ?? null,
    })),
    heldAt:
      casualty.claimByCasualtyId.find(({ enclosure }) => enclosure.centreId === centre?.id)?.enclosure.name ??
      null,
    keeper: where === undefined ? null : (where.centre?.name ?? where.keeper),
    what: referral?.what ?? null,
    offers: referral?.offers ?? '',
    home: referral?.homeCentre?.name ?? null,
  }
}

/** An ask was looked at through its link: said once on the ask, each time in the audit. */
export async function noteOpening(
  { tx }: Pick<EntryTx, 'tx'>,
  opening: { readonly askId: number; readonly linkId: number; readonly at: Date; readonly isOpen: boolean },
): Promise<void> {
  const { askId, linkId, at, isOpen } = opening
  if (isOpen)
    await tx.ask.updateMany({ where: { id: askId, state: 'put', seenAt: null }, data: { seenAt: at } })
  await noteLinkOpening(tx, linkId, at)
}

/** Runs a piece of work of a link in a transaction that changes nothing placement reads. */
export async function inLinkTransaction<T>(
  _grant: Grant<'system.run'>,
  work: (tx: EntryTx['tx']) => Promise<T>,
): Promise<T> {
  return db().$transaction(work)
}
