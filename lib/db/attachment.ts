/**
 * Pictures of animals: their lines, and their bytes apart, so that no list reads them.
 * Promise: the same picture sent twice to an animal is one; a picture that was taken back keeps its line and has no
 * bytes. Writes run inside an entry (entry.ts).
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { ATTACHMENT_KINDS, type AttachmentKind, type ImageSize } from '#lib/domain/attachment.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { db } from './client.ts'
import { type Entered, entered, enteredOf } from './entered.ts'
import type { EntryTx } from './entry.ts'

export type Sized = {
  readonly size: ImageSize
  readonly width: number
  readonly height: number
  readonly bytes: Uint8Array<ArrayBuffer>
}

export type NewAttachment = {
  readonly casualtyId: number
  readonly kind: AttachmentKind
  readonly at: Date
  readonly words: string
  readonly digest: string
  readonly images: readonly Sized[]
}

/** The number of a picture that an animal has already and that stands. */
export async function findAttachment(
  _grant: Grant<'picture.add'>,
  casualtyId: number,
  digest: string,
): Promise<number | undefined> {
  const found = await db().attachment.findFirst({
    where: { casualtyId, digest, takenBackEntry: null },
    select: { id: true },
  })
  return found?.id
}

/** A picture with its sizes. */
export async function createAttachment(
  { tx, entryId }: EntryTx,
  { images, ...line }: NewAttachment,
): Promise<number> {
  const { id } = await tx.attachment.create({
    data: { ...line, entryId, images: { create: [...images] } },
    select: { id: true },
  })
  return id
}

/** Takes a picture back; its bytes go. */
export async function takeBackAttachment(
  { tx, entryId }: EntryTx,
  { attachmentId, casualtyId, because }: AttachmentBack,
): Promise<void> {
  const done = await tx.attachment.updateMany({
    where: { id: attachmentId, casualtyId, takenBackEntry: null },
    data: { takenBackEntry: entryId, takenBackBecause: because },
  })
  if (done.count > 0) return
  const isThere = (await tx.attachment.count({ where: { id: attachmentId, casualtyId } })) > 0
  throw new Failure(isThere ? 'conflict' : 'not-found')
}

export type AttachmentBack = {
  readonly attachmentId: number
  readonly casualtyId: number
  readonly because: string
}

/** A picture as a list shows it, by the size of its thumbnail. */
export type Picture = {
  readonly id: number
  readonly kind: AttachmentKind
  readonly at: Date
  readonly words: string
  readonly width: number
  readonly height: number
}

export type AttachmentRow = Picture & {
  readonly entered: Entered
  readonly takenBack: { readonly because: string; readonly entered: Entered } | null
}

export const attachmentSelected = {
  id: true,
  kind: true,
  at: true,
  words: true,
  images: { where: { size: 'thumbnail' }, select: { width: true, height: true } },
} as const

type Selected = Omit<Picture, 'kind' | 'width' | 'height'> & {
  readonly kind: string
  readonly images: readonly Pick<Picture, 'width' | 'height'>[]
}

export function pictureOf({ id, kind, at, words, images }: Selected): Picture {
  const { width, height } = images[0] ?? { width: 0, height: 0 }
  return { id, kind: z.enum(ATTACHMENT_KINDS).parse(kind), at, words, width, height }
}

/** Every picture of an animal, the newest first; those taken back among them. */
export async function listAttachments(
  _grant: Grant<'casualty.read'>,
  casualtyId: number,
): Promise<AttachmentRow[]> {
  const rows = await db().attachment.findMany({
    where: { casualtyId },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    select: { ...attachmentSelected, entry: entered, takenBackEntryOf: entered, takenBackBecause: true },
  })
  return rows.map(row => ({
    ...pictureOf(row),
    entered: enteredOf(row.entry),
    takenBack:
      row.takenBackEntryOf === null
        ? null
        : { because: row.takenBackBecause ?? '', entered: enteredOf(row.takenBackEntryOf) },
  }))
}

/** Whose picture it is; undefined where there is none. */
export async function findCasualtyOfAttachment(
  _grant: Grant<'system.run'>,
  attachmentId: number,
): Promise<number | undefined> {
  const found = await db().attachment.findUnique({
    where: { id: attachmentId },
    select: { casualtyId: true },
  })
  return found?.casualtyId
}

/** The bytes of one size. Failure 'not-found' for what was taken back. */
export async function getImage(
  _grant: Grant<'casualty.read'> | Grant<'system.run'>,
  attachmentId: number,
  size: ImageSize,
): Promise<Uint8Array<ArrayBuffer>> {
  const found = await db().attachmentImage.findUnique({
    where: { attachmentId_size: { attachmentId, size } },
  })
  if (found === null) throw new Failure('not-found')
  return found.bytes
}
