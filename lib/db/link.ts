/**
 * Links that let somebody do one thing once, without an account.
 * Promise: only the token's hash is kept; a link that was used, taken back or ran out opens nothing; of several that
 * use it at once one wins.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { LinkState, LinkSubject } from '#lib/domain/link.ts'
import type { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'

type Tx = Prisma.TransactionClient

export type NewLink = {
  readonly tokenHash: string
  readonly subject: LinkSubject
  readonly madeAt: Date
  readonly madeBy: number | null
  readonly expiresAt: Date
}

export type Link = LinkState & { readonly id: number; readonly subject: LinkSubject; readonly madeAt: Date }

/** Keeps a new link; those before it stay as they are. */
export async function createLink(tx: Tx, { tokenHash, subject, ...times }: NewLink): Promise<number> {
  const { purpose } = subject
  const { id } = await tx.oneTimeLink.create({
    data: { tokenHash, purpose, ...aboutOf(subject), ...times },
    select: { id: true },
  })
  return id
}

/** The link with this hash, whatever became of it. */
export async function findLink(_grant: Grant<'system.run'>, tokenHash: string): Promise<Link | undefined> {
  const row = await db().oneTimeLink.findUnique({ where: { tokenHash } })
  const subject = row === null ? undefined : subjectOf(row)
  if (row === null || subject === undefined) return undefined
  const { id, madeAt, expiresAt, openedAt, usedAt, revokedAt } = row
  return { id, subject, madeAt, expiresAt, openedAt, usedAt, revokedAt }
}

/** Notes that it was looked at; true for the first time. */
export async function openLink(tx: Tx, id: number, at: Date): Promise<boolean> {
  const { count } = await tx.oneTimeLink.updateMany({ where: { id, openedAt: null }, data: { openedAt: at } })
  return count === 1
}

/** That it was looked at stands in the audit, each time. */
export async function noteLinkOpening(tx: Tx, id: number, at: Date): Promise<void> {
  await tx.audit.create({
    data: {
      at,
      actorWords: 'whoever had the link',
      action: 'link opened',
      subject: 'one_time_link',
      subjectId: String(id),
      columns: ['opened_at'],
    },
  })
}

/** Uses it up; false when it was used, taken back or ran out before. */
export async function spendLink(tx: Tx, id: number, at: Date): Promise<boolean> {
  const { count } = await tx.oneTimeLink.updateMany({
    where: { id, usedAt: null, revokedAt: null, expiresAt: { gt: at } },
    data: { usedAt: at },
  })
  return count === 1
}

/** Takes back every link about the same thing that still opens something. */
export async function revokeLinks(tx: Tx, subject: LinkSubject, at: Date): Promise<number> {
  const { count } = await tx.oneTimeLink.updateMany({
    where: { purpose: subject.purpose, ...aboutOf(subject), usedAt: null, revokedAt: null },
    data: { revokedAt: at },
  })
  return count
}

function aboutOf(subject: LinkSubject): { askId: number } | { legId: number } | { personId: number } {
  switch (subject.purpose) {
    case 'ask':
      return { askId: subject.askId }
    case 'leg':
      return { legId: subject.legId }
    default:
      return { personId: subject.personId }
  }
}

function subjectOf(row: {
  readonly purpose: string
  readonly askId: number | null
  readonly legId: number | null
  readonly personId: number | null
}): LinkSubject | undefined {
  if (row.purpose === 'ask') return row.askId === null ? undefined : { purpose: 'ask', askId: row.askId }
  if (row.purpose === 'leg') return row.legId === null ? undefined : { purpose: 'leg', legId: row.legId }
  if (row.personId === null) return undefined
  return row.purpose === 'invitation' || row.purpose === 'reset'
    ? { purpose: row.purpose, personId: row.personId }
    : undefined
}
