/**
 * Initials and a short code: who stands before a tablet that several people share.
 * Promise: initials are upper case however they were typed; a code is four to eight digits, not one digit over and
 * over nor a run of neighbours.
 */
import { z } from 'zod'

const DIGITS = '0123456789'

const initials = z
  .string()
  .trim()
  .toUpperCase()
  .refine(text => /^[A-Z]{2,4}$/.test(text), { params: { rule: 'not-initials' } })

const code = z
  .string()
  .trim()
  .refine(text => /^\d{4,8}$/.test(text), { params: { rule: 'not-short-code' } })

const hardToGuess = code.refine(
  text => new Set(text).size > 1 && !DIGITS.includes(text) && !DIGITS.includes([...text].reverse().join('')),
  { params: { rule: 'code-easily-guessed' } },
)

/** Who enters something. */
export const shortCodeInput = z.object({ initials, shortCode: code })

/** What somebody chooses for herself. */
export const ownCodeInput = z.object({ initials, shortCode: hardToGuess })
