import { beforeAll, describe, expect, it } from 'vitest'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { db } from '#lib/db/client.ts'
import { createLink, findLink, openLink, revokeLinks, spendLink } from '#lib/db/link.ts'
import { queueMail } from '#lib/db/outbox.ts'
import { newToken, tokenHashOf } from '#lib/service/link.ts'
import { database } from '#tests/support/database.ts'
import { hours, makeWorld, NOON } from '#tests/support/heart.ts'
import { addOneOfEach } from '#tests/support/one-of-each.ts'

const GRANT = demand(systemActor('test'), 'system.run')
const ABOUT = { purpose: 'ask', askId: 1 } as const

beforeAll(async () => {
  const client = await database.pool.connect()
  await makeWorld(client)
  await addOneOfEach(client)
  client.release()
})

async function made(): Promise<{ readonly id: number; readonly token: string }> {
  const { token, tokenHash } = newToken()
  const id = await createLink(db(), {
    tokenHash,
    subject: ABOUT,
    madeAt: NOON,
    madeBy: null,
    expiresAt: hours(1),
  })
  return { id, token }
}

describe('a one-time link', () => {
  it('is found by its token alone, which is kept nowhere', async () => {
    const { id, token } = await made()
    expect(await findLink(GRANT, tokenHashOf(token) ?? '')).toMatchObject({ id, subject: ABOUT })
    expect(await findLink(GRANT, token)).toBeUndefined()
    const { rows } = await database.pool.query('select token_hash from one_time_link where id = $1', [id])
    expect(JSON.stringify(rows)).not.toContain(token)
  })

  it('is spent by one of many that use it at once', async () => {
    const { id } = await made()
    const won = await Promise.all(Array.from({ length: 8 }, () => spendLink(db(), id, hours(0.5))))
    expect(won.filter(Boolean)).toHaveLength(1)
  })

  it('opens nothing after its time, or when it was taken back', async () => {
    const [late, back] = [await made(), await made()]
    expect(await spendLink(db(), late.id, hours(1))).toBe(false)
    expect(await revokeLinks(db(), ABOUT, hours(0.5))).toBeGreaterThanOrEqual(2)
    expect(await spendLink(db(), back.id, hours(0.6))).toBe(false)
  })

  it('says the first time it is looked at, and only then', async () => {
    const { id } = await made()
    expect(await openLink(db(), id, NOON)).toBe(true)
    expect(await openLink(db(), id, hours(1))).toBe(false)
  })
})

describe('a mail', () => {
  it('is queued once for each key', async () => {
    const mail = { key: 'ask 1 put', to: 'a@example.org', subject: 'A', body: 'B', at: NOON }
    const queued = await Promise.all(Array.from({ length: 4 }, () => queueMail(db(), mail)))
    expect(queued.filter(Boolean)).toHaveLength(1)
  })
})
