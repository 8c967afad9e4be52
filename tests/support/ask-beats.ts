/**
 * A process that only beats, as a server does beside its requests: started by tests that kill it. Reads the instant from
 * the test clock before each beat, so that a test moves time for every process at once.
 */
import pg from 'pg'
import { tick } from '#lib/service/ticker.ts'

const client = new pg.Client({ connectionString: process.env['DATABASE_URL'] })
await client.connect()
process.stdout.write('beating\n')
for (;;) {
  const { rows } = await client.query<{ at: Date }>('select at from test_clock')
  const [row] = rows
  if (row === undefined) throw new Error('the test clock is not set')
  await tick(row.at)
  await new Promise(done => setTimeout(done, 5))
}
