/**
 * What a centre says of itself for a while: it takes no more until a day, or can hand-feed so many rounds a day.
 * Promise: what was said runs out by itself in the morning of its last day; whoever feeds itself needs no rounds.
 * Rounds are feeds a day.
 */
import { z } from 'zod'
import { type DayNumber, dayOfInstant } from './day.ts'
import { instantOfMinute } from './hours.ts'
import type { Age } from './species.ts'
import { integerText } from './text.ts'

export const WORD_KINDS = ['no-more', 'feeding-rounds'] as const
export type WordKind = (typeof WORD_KINDS)[number]

export const ROUNDS_MAX = 96
/** One tap each; in between nobody counts with a bird in hand. Ours. */
export const ROUNDS_OFFERED = [0, 4, 8, 14, 28] as const
/** Days ahead that can be said in one tap. */
export const DAYS_OFFERED = 7

/** Words end at this minute of their last day, before the day's first calls. Ours. */
const ENDS_AT_MINUTE = 8 * 60
/** How long a number of feeding rounds is believed. Ours. */
const ROUNDS_DAYS = 7

export const centreWord = z.object({
  centreId: z.int(),
  kind: z.enum(WORD_KINDS),
  rounds: z.int().min(0).max(ROUNDS_MAX).nullable(),
  until: z.union([z.date(), z.string()]).pipe(z.coerce.date()),
})
export type CentreWord = z.infer<typeof centreWord>

/** What somebody taps: a day, a number of rounds. */
export const noMoreForm = z.object({ day: integerText })
export const roundsForm = z.object({ rounds: integerText.pipe(z.int().min(0).max(ROUNDS_MAX)) })

/** The days one tap can name, tomorrow first. */
export function daysOffered(now: Date, zone: string): DayNumber[] {
  const today = dayOfInstant(now, zone)
  return Array.from({ length: DAYS_OFFERED }, (_, ahead) => today + ahead + 1)
}

/** When "no more until this day" ends. */
export function noMoreEnds(day: DayNumber, zone: string): Date {
  return instantOfMinute(day, ENDS_AT_MINUTE, zone)
}

/** When a number of feeding rounds said now is no longer believed. */
export function roundsEnd(now: Date, zone: string): Date {
  return instantOfMinute(dayOfInstant(now, zone) + ROUNDS_DAYS, ENDS_AT_MINUTE, zone)
}

/** Whether so many feeds a day are within what a centre said, for an animal that comes at an instant. */
export function canFeed(
  said: { readonly rounds: number; readonly until: Date } | null,
  feeds: number,
  at: Date,
): boolean {
  return said === null || said.until <= at || feeds <= said.rounds
}

/**
 * Feeds a day that young of a group are given by hand. Songbirds every half hour of a summer's day (reference: groups,
 * "food every 15-30 minutes by day for nestlings", common practice, no source); the others are ours, no source.
 */
const HAND_FEEDS: Readonly<Record<string, number>> = {
  'small-songbirds': 28,
  'thrushes-starlings': 28,
  swallows: 28,
  'unknown-birds': 28,
  woodpeckers: 20,
  corvids: 14,
  swifts: 12,
  kingfishers: 12,
  bats: 8,
  'unknown-mammals': 8,
  hedgehogs: 6,
  mustelids: 6,
  squirrels: 6,
  foxes: 5,
  badgers: 5,
  otters: 5,
  seals: 5,
  parakeets: 5,
  'gulls-large': 5,
  'gulls-small': 5,
  deer: 4,
  'pigeons-doves': 4,
  falcons: 4,
  hawks: 4,
  'buzzards-kites-harriers': 4,
  'eagles-osprey': 4,
  owls: 4,
  'unknown-raptors': 4,
  'herons-storks': 4,
  auks: 4,
  cormorants: 4,
  gannets: 4,
  tubenoses: 4,
  'rabbits-hares': 4,
}

/** Feeding rounds a day that such an animal needs; 0 for what feeds itself. */
export function feedsADay(group: string, age: Age): number {
  return age === 'young' && Object.hasOwn(HAND_FEEDS, group) ? (HAND_FEEDS[group] ?? 0) : 0
}
