/**
 * Passwords as argon2id: 19 MiB, two passes, one lane (OWASP's password storage cheat sheet, from memory).
 * Promise: only hashes are kept; a check takes the same work whether or not anybody has that e-mail.
 */
import { hash, verify } from '@node-rs/argon2'

/** The package's const enum cannot be read under isolated modules: 2 is Argon2id. */
const ARGON2ID = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const

/** No rows: the hash of a new password. */
export async function hashPassword(password: string): Promise<string> {
  return hash(password, ARGON2ID)
}

let spare: Promise<string> | undefined

/** No rows: whether a password fits a hash; without a hash the same work is done and the answer is no. */
export async function isPasswordOf(known: string | undefined, password: string): Promise<boolean> {
  spare ??= hashPassword('nobody has this password')
  const fits = await verify(known ?? (await spare), password)
  return known !== undefined && fits
}
