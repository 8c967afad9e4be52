/**
 * "Two more weeks": how much longer a vet thinks an animal needs in its stage, as it is written down.
 * Promise: a fact, never refused for what it says of a plan; days are whole, from the day it was said, 1 to
 * WORD_DAYS_MAX. It speaks of one animal in one stage. The vet decides, this only arranges.
 */
import { z } from 'zod'
import type { Moment } from './parse.ts'
import { idInput, occurred } from './record.ts'

/** How far a vet's word moves the median, between none (0) and wholly (1), on the log scale; no source, ours. */
export const VET_WEIGHT = 0.75

export const WORD_DAYS_MAX = 730
export const WORD_UNITS = ['days', 'weeks'] as const
export type WordUnit = (typeof WORD_UNITS)[number]

const DAYS_OF: Readonly<Record<WordUnit, number>> = { days: 1, weeks: 7 }
const SAID_BY_MAX = 80

/** Typed as a number of days or weeks; read as days. */
export const vetWordInput = (at: Moment) =>
  z
    .object({
      ...occurred(at),
      stageNo: idInput,
      longer: z.coerce.number().int().min(1).max(WORD_DAYS_MAX),
      unit: z.enum(WORD_UNITS).default('days'),
      saidBy: z.string().trim().min(1).max(SAID_BY_MAX),
    })
    .refine(({ longer, unit }) => longer * DAYS_OF[unit] <= WORD_DAYS_MAX, {
      path: ['longer'],
      params: { rule: 'vet_word_in_days_in_range' },
    })
    .transform(({ longer, unit, ...said }) => ({ ...said, inDays: longer * DAYS_OF[unit] }))

export const vetWordBackInput = z.object({ wordId: idInput })
