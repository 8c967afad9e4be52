/**
 * Whether mail leaves this installation.
 */
import { env } from '#lib/env.ts'

/** No rows: whether a mail server is set. */
export function isMailSet(): boolean {
  return env().ROOSTWRIGHT_SMTP_URL !== undefined
}
