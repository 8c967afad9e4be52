import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { describeSchema } from '#prisma/describe.ts'
import { database, undone } from '#tests/support/database.ts'

const TARGET = fileURLToPath(new URL('../../prisma/described.sql', import.meta.url))

it('prisma/described.sql is the live schema; `npm run describe` writes it anew', async () => {
  const client = await database.pool.connect()
  const live = await describeSchema(client)
  client.release()
  expect(live).toBe(readFileSync(TARGET, 'utf8'))
})

it('a column, a rule or a function more shows in it', async () => {
  const before = readFileSync(TARGET, 'utf8')
  await undone(async client => {
    for (const change of [
      'alter table note add column planted int',
      'alter table note add constraint note_planted check (id > 0)',
      'create function planted() returns int language sql as $$ select 1 $$',
      'drop trigger claim_fits_stocking on claim',
    ]) {
      await client.query('savepoint one')
      await client.query(change)
      expect(await describeSchema(client)).not.toBe(before)
      await client.query('rollback to savepoint one')
    }
  })
})
