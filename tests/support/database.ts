/**
 * Each file of the database suite has a database of its own, cloned from the template before the file is read, so
 * that lib/env.ts already names it. What a test commits stays for the tests after it in that file, and for no other.
 */
import { randomBytes } from 'node:crypto'
import pg from 'pg'
import { afterAll, inject } from 'vitest'

const url = await clone()

Object.assign(process.env, {
  DATABASE_URL: url,
  NEXTAUTH_SECRET: 'a secret of the tests, known to all',
  NEXTAUTH_URL: 'http://localhost:3000',
  ROOSTWRIGHT_TEST: '1',
  ROOSTWRIGHT_TEST_CLOCK: '1',
})

const pool = new pg.Pool({ connectionString: url, max: 40 })

/** The clone of this file: its address, and a pool on it. */
export const database: { readonly url: string; readonly pool: pg.Pool } = { url, pool }

/** One more clone, empty but for the schema, for a test that needs two. */
export async function clone(): Promise<string> {
  const name = `${inject('clones')}${randomBytes(5).toString('hex')}`
  const client = new pg.Client({ connectionString: inject('server') })
  await client.connect()
  try {
    await client.query(`create database ${name} template ${inject('template')} strategy file_copy`)
  } finally {
    await client.end()
  }
  const address = new URL(inject('server'))
  address.pathname = `/${name}`
  return address.href
}

/** Runs on one connection inside a transaction that is always undone. */
export async function undone<T>(use: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect()
  try {
    await client.query('begin')
    return await use(client)
  } finally {
    await client.query('rollback')
    client.release()
  }
}

afterAll(() => pool.end())
