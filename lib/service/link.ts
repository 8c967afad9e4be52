/**
 * Tokens of one-time links: 256 bits from the system's source of chance; only their hash is kept (SHA-256, enough
 * for what cannot be guessed).
 */
import { createHash, randomBytes } from 'node:crypto'
import { isToken, TOKEN_BYTES } from '#lib/domain/link.ts'

export type Token = { readonly token: string; readonly tokenHash: string }

/** No rows: a token that nobody has had, with the hash to keep of it. */
export function newToken(): Token {
  const token = randomBytes(TOKEN_BYTES).toString('base64url')
  return { token, tokenHash: hashOf(token) }
}

/** No rows: the hash to look a token up by; undefined for what is none. */
export function tokenHashOf(text: string): string | undefined {
  return isToken(text) ? hashOf(text) : undefined
}

function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex')
}
