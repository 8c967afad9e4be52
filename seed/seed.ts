/**
 * Fills an empty, migrated database with the invented coast. The same day tells the same facts.
 * Run: node --conditions=react-server --import tsx seed/seed.ts [--today=2026-11-25]
 */

import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import pg from 'pg'
import { disconnect } from '#lib/db/client.ts'
import { env } from '#lib/env.ts'
import { seedAll } from './all.ts'
import { tellStanding } from './scenario/interrupted.ts'

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { today: { type: 'string' } } })
  const client = new pg.Client({ connectionString: env().DATABASE_URL })
  await client.connect()
  try {
    const now = values.today === undefined ? new Date() : new Date(`${values.today}T20:40:00Z`)
    const report = await seedAll(client, now)
    report['calls that stand aside'] = await tellStanding(now)
    for (const [what, figure] of Object.entries(report)) console.log(`${what}: ${figure}`)
  } finally {
    await Promise.all([client.end(), disconnect()])
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  main().catch((thrown: unknown) => {
    console.error(thrown instanceof Error ? thrown.message : thrown)
    process.exitCode = 1
  })
}
