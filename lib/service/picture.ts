/**
 * Pictures made anew from what was sent: the right way up, no larger than needed, without a word of the camera's.
 * Promise: reads JPEG, PNG and WebP by their bytes and nothing else; what comes out is WebP and holds pixels only.
 */
import { createHash } from 'node:crypto'
import sharp, { type Sharp } from 'sharp'
import type { AttachmentKind, ImageSize } from '#lib/domain/attachment.ts'
import { Failure } from '#lib/kernel/failure.ts'

export type Image = {
  readonly size: ImageSize
  readonly width: number
  readonly height: number
  readonly bytes: Uint8Array<ArrayBuffer>
}

const KNOWN = ['jpeg', 'png', 'webp']
/** A file of a few kilobytes can unfold to gigabytes. */
const PIXELS_MAX = 60_000_000
const SIDE_MAX: Readonly<Record<ImageSize, number>> = { whole: 2400, thumbnail: 320 }
/** A hairline in bone must survive; feathers need not. */
const QUALITY: Readonly<Record<AttachmentKind, number>> = { radiograph: 92, photograph: 82 }
const THUMBNAIL_QUALITY = 74

/** No rows: the picture to look at and the one for lists. Failure 'invalid' for what is no picture. */
export async function imagesOf(sent: Uint8Array, kind: AttachmentKind): Promise<readonly Image[]> {
  try {
    const { format } = await sharp(sent, { limitInputPixels: PIXELS_MAX }).metadata()
    if (!KNOWN.includes(format)) throw refused('picture-not-known')
    const upright = sharp(sent, { limitInputPixels: PIXELS_MAX, failOn: 'error' }).autoOrient()
    return await Promise.all([
      imageOf(upright.clone(), 'whole', QUALITY[kind]),
      imageOf(upright.clone(), 'thumbnail', THUMBNAIL_QUALITY),
    ])
  } catch (thrown) {
    throw thrown instanceof Failure ? thrown : refused('picture-unreadable', thrown)
  }
}

/** No rows: what tells a picture that is sent again. */
export function digestOf(sent: Uint8Array): string {
  return createHash('sha256').update(sent).digest('hex')
}

async function imageOf(upright: Sharp, size: ImageSize, quality: number): Promise<Image> {
  const side = SIDE_MAX[size]
  const { data, info } = await upright
    .resize({ width: side, height: side, fit: 'inside', withoutEnlargement: true })
    .webp({ quality })
    .toBuffer({ resolveWithObject: true })
  return { size, width: info.width, height: info.height, bytes: Uint8Array.from(data) }
}

function refused(rule: string, cause?: unknown): Failure {
  return new Failure('invalid', {
    rule,
    field: 'picture',
    problems: [{ field: 'picture', reason: rule }],
    ...(cause !== undefined && { cause }),
  })
}
