/**
 * Links that let somebody do one thing once: what a link is for, and whether it still opens it.
 * Promise: exactly one of the states; what was used stays used whatever the time.
 */

export type LinkSubject =
  | { readonly purpose: 'ask'; readonly askId: number }
  | { readonly purpose: 'leg'; readonly legId: number }
  | { readonly purpose: 'invitation' | 'reset'; readonly personId: number }

export type LinkState = {
  readonly expiresAt: Date
  readonly openedAt: Date | null
  readonly usedAt: Date | null
  readonly revokedAt: Date | null
}

export type LinkStanding = 'open' | 'used' | 'taken back' | 'ran out'

/** 256 random bits in the URL's own alphabet. */
export const TOKEN_BYTES = 32
const TOKEN = /^[A-Za-z0-9_-]{43}$/

/** Whether a text could be a token at all; nothing else is looked up. */
export function isToken(text: string): boolean {
  return TOKEN.test(text)
}

/** How a link stands at an instant. */
export function linkStanding({ expiresAt, usedAt, revokedAt }: LinkState, at: Date): LinkStanding {
  if (usedAt !== null) return 'used'
  if (revokedAt !== null) return 'taken back'
  return expiresAt.getTime() <= at.getTime() ? 'ran out' : 'open'
}
