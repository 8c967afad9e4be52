/**
 * The network's facts and today's day, read once a page.
 */
import 'server-only'
import { cache } from 'react'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { getNetworkFacts } from '#lib/service/network-facts.ts'
import { currentNow } from './clock.ts'

/** Name, line, zone and authority of the network. */
export const currentNetwork = cache(getNetworkFacts)

/** The calendar day and the clock of this request, in the network's zone. */
export const currentDay = cache(async (): Promise<{ now: Date; today: DayNumber; zone: string }> => {
  const [now, { zone }] = await Promise.all([currentNow(), currentNetwork()])
  return { now, today: dayOfInstant(now, zone), zone }
})
