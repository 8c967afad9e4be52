/**
 * What went into a learning run and what came out of it, as one number each, to tell whether two are the same.
 */
import { createHash } from 'node:crypto'
import { bytesOf } from '#lib/domain/day-numbers.ts'
import { EXITS } from '#lib/domain/housing.ts'
import type { LearnedHazards } from '#lib/domain/stage-cell.ts'
import type { LearnedArrivals } from '#lib/learn/arrivals.ts'
import type { StageRecords } from '#lib/learn/learn-stages.ts'

type Hazarded = { readonly key: string; readonly hazards: Omit<LearnedHazards, 'key' | 'run'> }

const DAYS = ['died', 'euthanased', 'left', 'passes'] as const

/**
 * No rows: one digest of all that records teach; any digit of any day changes it. What they leave open depends on who is in
 * care, too, and is not in it. Stages count in the order of their keys.
 */
export function learnedDigest(stages: readonly Hazarded[], arrivals: readonly LearnedArrivals[]): string {
  const hash = createHash('sha256')
  for (const { key, hazards } of stages) {
    hash.update(`${key}\n`)
    for (const field of DAYS) hash.update(bytesOf(hazards[field]))
    hash.update(bytesOf(Float64Array.from(EXITS, exit => hazards.beyond[exit])))
  }
  for (const { eventsPerDay, ...rest } of arrivals)
    hash.update(JSON.stringify(rest)).update(bytesOf(eventsPerDay))
  return hash.digest('hex')
}

/** No rows: one digest of all stays by cell. */
export function inputsDigest(records: readonly StageRecords[]): string {
  const hash = createHash('sha256')
  for (const { key, days, stays } of records) hash.update(`${JSON.stringify([key, days, stays])}\n`)
  return hash.digest('hex')
}
