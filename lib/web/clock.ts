/**
 * The one clock of the program; services are handed what it says.
 * Promise: real time, or, where tests may set it, what the test set; one reading a page.
 */
import 'server-only'
import { cache } from 'react'
import { env } from '#lib/env.ts'
import { findTestInstant } from '#lib/service/clock.ts'

/** The instant now. Pages and actions use `currentNow`; what runs outside a request uses this. */
export async function readNow(): Promise<Date> {
  const set = env().ROOSTWRIGHT_TEST_CLOCK ? await findTestInstant() : undefined
  return set ?? new Date()
}

/** The instant of this request. */
export const currentNow = cache(readNow)
