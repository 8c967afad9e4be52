/** How to break each rule about pictures; the rows are in one-of-each.ts. */
import { copyOf } from './one-of-each.ts'

const STANDS = 'taken_back_entry is null'
const other = (change: Readonly<Record<string, unknown>>) =>
  copyOf('attachment', { digest: '2'.repeat(64), ...change }, STANDS)
const thumbnail = (change: Readonly<Record<string, unknown>>) =>
  copyOf('attachment_image', { size: 'thumbnail', ...change })

export const PICTURE_BREAKS = {
  attachment_kind_known: other({ kind: 'no such thing' }),
  attachment_digest_is_sha256: other({ digest: 'x' }),
  attachment_within_limits: other({ words: 'x'.repeat(201) }),
  attachment_taken_back_says_why: other({ taken_back_entry: 1 }),
  attachment_sent_once: copyOf('attachment', {}, STANDS),
  attachment_is_append_only: `update attachment set words = 'other'`,
  attachment_image_size_known: copyOf('attachment_image', { size: 'no such thing' }),
  attachment_image_within_limits: thumbnail({ width: 4097 }),
  attachment_image_is_webp: thumbnail({ bytes: '\\x47494638' }),
}
