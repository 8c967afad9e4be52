/**
 * What every list of what is owed is made of: days as instants, places as numbers, rows as items. Parts of statements.
 */
import 'server-only'
import type { Role } from '#lib/authz/actor.ts'
import { type DueItem, dueItem } from '#lib/domain/due.ts'
import { Prisma } from '#prisma/generated/client.ts'
import { db } from './client.ts'

export const zone = Prisma.sql`(select time_zone from network limit 1)`
/** The last second of a day by the network's clock. */
export const endOf = (day: Prisma.Sql) =>
  Prisma.sql`((${day} + 1)::timestamp at time zone ${zone} - interval '1 second')`

export const anyOf = (ids: readonly number[]) => Prisma.sql`any (${[...ids]}::int[])`

/** Reads a list for whoever has a role. */
export async function readOwed(role: Role, sql: Prisma.Sql): Promise<DueItem[]> {
  return (await db().$queryRaw<unknown[]>(sql)).map(row => dueItem(role, row))
}
