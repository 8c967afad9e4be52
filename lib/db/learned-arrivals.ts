/**
 * What a learning run found of arrivals and left open of pools: written with the run, read of the newest.
 * Promise: numbers come back to the last bit as they were written.
 */
import 'server-only'
import { z } from 'zod'
import type { Grant } from '#lib/authz/demand.ts'
import { type DayNumber, dateOfDay, dayOfDate } from '#lib/domain/day.ts'
import { bytesOf, numbersOf } from '#lib/domain/day-numbers.ts'
import type { LearnedRates } from '#lib/domain/learned-arrivals.ts'
import type { LearnedDoubt } from '#lib/domain/learned-doubt.ts'
import type { LearnedComing } from '#lib/domain/trade.ts'
import type { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'

/** A group's arrivals, for a person: how many were counted, how far what was entered is out. */
export type ArrivalNumbers = {
  readonly group: string
  readonly events: number
  readonly refused: number
  readonly level: { readonly mean: number; readonly low: number; readonly high: number }
  readonly weekend: number
  readonly theta: number
  readonly season: {
    readonly mean: number
    readonly shape: number
    readonly until: DayNumber
    readonly variance: number
  }
}

export type LearnedArrivalsRow = ArrivalNumbers & Omit<LearnedRates, 'run' | 'from'>

/** Writes a run's arrivals and doubts, inside its transaction. */
export async function insertArrivals(
  tx: Prisma.TransactionClient,
  runId: number,
  arrivals: readonly LearnedArrivalsRow[],
  doubts: readonly LearnedDoubt[],
): Promise<void> {
  await tx.learnedArrivals.createMany({
    data: arrivals.map(
      ({ group, events, refused, level, weekend, theta, season, eventsPerDay, sizes, shares, mix }) => ({
        events,
        refused,
        weekend,
        theta,
        runId,
        groupSlug: group,
        levelMean: level.mean,
        levelLow: level.low,
        levelHigh: level.high,
        seasonMean: season.mean,
        seasonShape: season.shape,
        seasonUntil: new Date(dateOfDay(season.until)),
        seasonVariance: season.variance,
        eventsPerDay: bytesOf(eventsPerDay),
        sizesYoung: [...sizes.young],
        sizesGrown: [...sizes.grown],
        shares,
        mix,
      }),
    ),
  })
  await tx.learnedDoubt.createMany({
    data: doubts.map(({ poolId, size, varianceByDay }) => ({
      runId,
      poolId,
      size,
      variance: bytesOf(varianceByDay),
    })),
  })
}

/** What forecasts read of the newest run: rates by group and doubts by pool; nothing before the first run. */
export async function readLearnedArrivals(_grant: Grant<'system.run'>): Promise<LearnedComing> {
  const run = await db().learningRun.findFirst({
    orderBy: { id: 'desc' },
    select: {
      id: true,
      asOf: true,
      modelVersion: true,
      seed: true,
      arrivals: { orderBy: { groupSlug: 'asc' } },
      doubts: true,
    },
  })
  if (run === null) return { source: null, rates: [], doubts: [] }
  const from = dayOfDate(run.asOf.toISOString().slice(0, 10))
  return {
    source: { run: run.id, modelVersion: run.modelVersion, seed: run.seed },
    rates: run.arrivals.map(row => ({
      group: row.groupSlug,
      run: String(run.id),
      from,
      eventsPerDay: numbersOf(row.eventsPerDay),
      sizes: { young: row.sizesYoung, grown: row.sizesGrown },
      shares: centreShares.parse(row.shares),
      mix: planMix.parse(row.mix),
    })),
    doubts: run.doubts.map(({ poolId, size, variance }) => ({
      poolId,
      size,
      from,
      varianceByDay: numbersOf(variance),
    })),
  }
}

/** A run's arrivals for a page, by group. */
export async function listArrivalNumbers(
  _grant: Grant<'forecast.read'>,
  runId: number,
): Promise<ArrivalNumbers[]> {
  const rows = await db().learnedArrivals.findMany({
    where: { runId },
    omit: { eventsPerDay: true, shares: true, mix: true, sizesYoung: true, sizesGrown: true },
    orderBy: [{ events: 'desc' }, { groupSlug: 'asc' }],
  })
  return rows.map(row => ({
    group: row.groupSlug,
    events: row.events,
    refused: row.refused,
    level: { mean: row.levelMean, low: row.levelLow, high: row.levelHigh },
    weekend: row.weekend,
    theta: row.theta,
    season: {
      mean: row.seasonMean,
      shape: row.seasonShape,
      until: dayOfDate(row.seasonUntil.toISOString().slice(0, 10)),
      variance: row.seasonVariance,
    },
  }))
}

const centres = z.array(z.object({ centreId: z.int(), share: z.number().min(0) }))
const centreShares = z.object({ winter: centres, spring: centres, summer: centres, autumn: centres })
const plans = z.array(
  z.object({
    planIds: z.array(z.string()),
    share: z.number().min(0),
    young: z.number().min(0).max(1).exactOptional(),
  }),
)
const planMix = z.object({ winter: plans, spring: plans, summer: plans, autumn: plans })
