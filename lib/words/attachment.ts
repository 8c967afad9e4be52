/**
 * Pictures of an animal: the section of the card, the form that adds one, what is refused.
 * Promise: what a picture shows is said in words beside it; a picture is looked at, never read for a diagnosis.
 */
import type { AttachmentKind } from '#lib/domain/attachment.ts'
import { dayAndClock } from './dates.ts'
import type { Said } from './said.ts'

export const PICTURES = {
  head: 'Pictures',
  note: 'What a picture means is for a vet to say.',
  none: 'No picture yet',
  noneComing: 'A radiograph or a photograph added here goes along when a vet is asked about this animal.',
  add: 'Add a picture',
  submit: 'Add it',
  file: 'Picture',
  fileHint:
    'JPEG, PNG or WebP, at most 9 MB. Place and camera are taken out of it; a face or an address in the picture stays, so leave them out.',
  kind: 'What it is',
  shows: 'What it shows',
  showsHint: 'Such as: left leg, side view, day 14',
  takenAt: 'When it was taken',
  takeBack: 'Take back',
  takeBackNote: 'The line stays, the picture itself is gone for good.',
  because: 'Why',
  becauseHint: 'Such as: another animal',
} as const

export function pictureKindWords(kind: AttachmentKind): string {
  return kind === 'radiograph' ? 'Radiograph' : 'Photograph'
}

type Shown = { readonly kind: AttachmentKind; readonly at: Date; readonly words: string }

/** "Radiograph, 24.11.2026, 14:05: left leg, side view", under the picture and for who cannot see it. */
export function pictureWords({ kind, at, words }: Shown, zone: string): string {
  const head = `${pictureKindWords(kind)}, ${dayAndClock(at, zone)}`
  return words === '' ? head : `${head}: ${words}`
}

/** "Taken back by Odile, 24.11.2026, 15:00: another animal". */
export function pictureBackWords(
  { because, by, at }: { readonly because: string; readonly by: string | null; readonly at: Date },
  zone: string,
): string {
  return `Taken back${by === null ? '' : ` by ${by}`}, ${dayAndClock(at, zone)}: ${because}`
}

const ANOTHER = 'Choose another file. What you wrote is kept.'

export const PICTURE_RULES = {
  'picture-not-known': { say: 'This is no JPEG, PNG or WebP picture', next: ANOTHER },
  'picture-unreadable': { say: 'This picture cannot be read: it is damaged or cut short', next: ANOTHER },
  'picture-too-large': { say: 'This picture is larger than 9 MB', next: ANOTHER },
} as const

const ONCE = {
  say: 'What was added stays as it was written',
  next: 'Take the picture back and add it again.',
} as const

export const PICTURE_CONSTRAINTS: Readonly<Record<string, Said>> = {
  attachment_sent_once: {
    say: 'This picture was added a moment ago',
    next: 'It stands with the others. Nothing is kept twice.',
  },
  attachment_is_append_only: ONCE,
  attachment_taken_back_says_why: {
    say: 'A picture is taken back with a reason',
    next: 'Write why. Everything typed is kept.',
  },
  attachment_within_limits: {
    say: 'The words are too long',
    next: 'Shorten them. Everything typed is kept.',
  },
  attachment_image_within_limits: {
    say: 'This picture is too large even when it is made smaller',
    next: ANOTHER,
  },
}
