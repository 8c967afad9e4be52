/**
 * The one clock of the program; services are handed what it says.
 * Promise: real time, or, where tests may set it, what the test set; one reading a page.
 */
import 'server-only'
import { cache } from 'react'
import { env } from '#lib/env.ts'
import { findTestInstant } from '#lib/service/clock.ts'

/** The instant of this request. */
export const currentNow = cache(async (): Promise<Date> => {
  const set = env().ROOSTWRIGHT_TEST_CLOCK ? await findTestInstant() : undefined
  return set ?? new Date()
})
