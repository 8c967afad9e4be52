/**
 * The connection to PostgreSQL: one pool a process, made at first use.
 * Promise: at most ten connections, ten seconds to get one; the pool outlives a reload of the code in development.
 */
import 'server-only'
import { PrismaPg } from '@prisma/adapter-pg'
import { env } from '#lib/env.ts'
import { type Prisma, PrismaClient } from '#prisma/generated/client.ts'
import { statementNames } from './statement-name.ts'

const CONNECTIONS_MAX = 10
/** A database that is away refuses at once; one that is only busy is worth waiting for. */
const WAIT_MS_MAX = 10_000

/** What a query runs on: the pool itself, or a transaction. */
export type Db = PrismaClient | Prisma.TransactionClient

const kept = globalThis as { roostwrightDb?: PrismaClient }

/** The client of this process. */
export function db(): PrismaClient {
  kept.roostwrightDb ??= new PrismaClient({
    adapter: new PrismaPg(
      {
        connectionString: env().DATABASE_URL,
        max: CONNECTIONS_MAX,
        connectionTimeoutMillis: WAIT_MS_MAX,
      },
      { statementNameGenerator: statementNames() },
    ),
  })
  return kept.roostwrightDb
}

/** Ends the pool, so that a program that is done can end. */
export async function disconnect(): Promise<void> {
  await kept.roostwrightDb?.$disconnect()
  delete kept.roostwrightDb
}
