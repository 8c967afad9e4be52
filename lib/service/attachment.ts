/**
 * Pictures of an animal: added, looked at, taken back.
 * Promise: served to those who may see the case and to whoever was asked about it while the ask waits; the same picture
 * sent twice is one; what was taken back is shown to nobody.
 */
import { type Actor, systemActor } from '#lib/authz/actor.ts'
import { demand, may } from '#lib/authz/demand.ts'
import {
  type AttachmentRow,
  createAttachment,
  findAttachment,
  findCasualtyOfAttachment,
  getImage,
  listAttachments,
  takeBackAttachment,
} from '#lib/db/attachment.ts'
import { getReach } from '#lib/db/keeping.ts'
import { attachmentBackInput, attachmentInput, type ImageSize } from '#lib/domain/attachment.ts'
import { parse, parseAt } from '#lib/domain/parse.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { demandOn, momentOf, record } from './about-casualty.ts'
import { findOpenCase } from './ask-link.ts'
import { digestOf, imagesOf } from './picture.ts'

/** Adds a picture and returns its number; one that is there already is left as it is. */
export async function addPicture(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<number> {
  const about = {
    permission: 'picture.add',
    casualtyId,
    action: 'picture added',
    columns: ['kind', 'at', 'words'],
  } as const
  const grant = await demandOn(actor, about)
  const { picture, ...line } = parseAt(attachmentInput, await momentOf(now), input)
  const digest = digestOf(picture)
  const known = await findAttachment(grant, casualtyId, digest)
  if (known !== undefined) return known
  const images = await imagesOf(picture, line.kind)
  const { made } = await record(actor, about, now, entry =>
    createAttachment(entry, { ...line, casualtyId, digest, images }),
  )
  return made
}

/** It belongs to another animal, or shows what it should not. */
export async function takePictureBack(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<void> {
  const { attachmentId, because } = parse(attachmentBackInput, input)
  const about = {
    permission: 'picture.add',
    casualtyId,
    action: 'picture taken back',
    columns: ['taken_back_because'],
    reason: because,
  } as const
  await record(actor, about, now, entry => takeBackAttachment(entry, { attachmentId, casualtyId, because }))
}

export type Pictures = { readonly all: readonly AttachmentRow[]; readonly mayAdd: boolean }

/** Every picture of an animal, the newest first. */
export async function readPictures(actor: Actor, casualtyId: number): Promise<Pictures> {
  const reach = await getReach(demand(systemActor('whose pictures'), 'system.run'), casualtyId)
  const grant = demand(actor, 'casualty.read', reach)
  return { all: await listAttachments(grant, casualtyId), mayAdd: may(actor, 'picture.add', reach) }
}

/** The bytes of a picture. Failure 'not-found' out of sight. */
export async function readPicture(
  actor: Actor,
  attachmentId: number,
  size: ImageSize,
): Promise<Uint8Array<ArrayBuffer>> {
  const casualtyId = await casualtyOf(attachmentId)
  const grant = await demandOn(actor, { permission: 'casualty.read', casualtyId })
  return getImage(grant, attachmentId, size)
}

/** System: the same for whoever has the link of an ask about this animal, while the ask waits. */
export async function readPictureByLink(
  token: string,
  attachmentId: number,
  size: ImageSize,
  now: Date,
): Promise<Uint8Array<ArrayBuffer>> {
  const one = await findOpenCase(token, now)
  if (!one?.pictures.some(({ id }) => id === attachmentId)) throw new Failure('not-found')
  return getImage(demand(systemActor('picture by link'), 'system.run'), attachmentId, size)
}

async function casualtyOf(attachmentId: number): Promise<number> {
  const found = await findCasualtyOfAttachment(
    demand(systemActor('whose picture'), 'system.run'),
    attachmentId,
  )
  if (found === undefined) throw new Failure('not-found')
  return found
}
