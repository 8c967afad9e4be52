/**
 * A picture of an animal as it is added: what it is, when it was taken, what it shows.
 * Promise: at most so many bytes, whatever they are; what they are is seen from the bytes, never from a name.
 */
import { z } from 'zod'
import type { Moment } from './parse.ts'
import { idInput, past } from './record.ts'

export const ATTACHMENT_KINDS = ['radiograph', 'photograph'] as const
export type AttachmentKind = (typeof ATTACHMENT_KINDS)[number]

export const IMAGE_SIZES = ['whole', 'thumbnail'] as const
export type ImageSize = (typeof IMAGE_SIZES)[number]

/** Of the file as it is sent. */
export const PICTURE_BYTES_MAX = 9_000_000
const WORDS_MAX = 200

export const attachmentInput = (at: Moment) =>
  z.object({
    kind: z.enum(ATTACHMENT_KINDS),
    at: past(at),
    words: z.string().trim().max(WORDS_MAX).default(''),
    picture: z
      .custom<Uint8Array>(sent => sent instanceof Uint8Array && sent.length > 0, {
        params: { rule: 'missing' },
        abort: true,
      })
      .refine(({ length }) => length <= PICTURE_BYTES_MAX, { params: { rule: 'picture-too-large' } }),
  })

export const attachmentBackInput = z.object({
  attachmentId: idInput,
  because: z.string().trim().min(1).max(WORDS_MAX),
})
