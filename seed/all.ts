/** The whole seed in one transaction: knowledge, network, people. */
import type pg from 'pg'
import { dateOfDay, dayOfInstant } from '#lib/domain/day.ts'
import { hashPassword } from '#lib/service/password.ts'
import { DEMO_PASSWORD } from './demo-password.mjs'
import { insertRows } from './load/bulk.ts'
import { readTradeFromReference } from './load/knowledge.ts'
import { referenceRows } from './load/reference.ts'
import { centreRows, networkRows, outsideRows, peopleRows } from './scenario/rows.ts'

export const ZONE = 'Europe/London'

/** Rows put in, by table. */
export type SeedReport = Record<string, number | string>

/** Fills an empty database as of an instant. */
export async function seedAll(client: pg.Client, now: Date): Promise<SeedReport> {
  const startedAt = performance.now()
  const report: SeedReport = {}
  const trade = readTradeFromReference()
  const today = dateOfDay(dayOfInstant(now, ZONE))
  await client.query('begin')
  try {
    const tables = [
      ...referenceRows(),
      ...networkRows(today),
      ...outsideRows(),
      ...centreRows(trade, []),
      ...peopleRows(await hashPassword(DEMO_PASSWORD)),
    ]
    for (const [table, rows] of tables) report[table] = await insertRows(client, table, rows)
    await client.query('commit')
  } catch (thrown) {
    await client.query('rollback')
    throw thrown
  }
  report['seconds'] = ((performance.now() - startedAt) / 1000).toFixed(1)
  return report
}
