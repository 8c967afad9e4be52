/**
 * Who is authorised for which rule, and what was done about an animal's clocks. Writes run inside an entry (entry.ts).
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { LicenceHolder } from '#lib/domain/licence.ts'
import { db } from './client.ts'
import { type Entered, entered, enteredOf } from './entered.ts'
import type { EntryTx } from './entry.ts'

export type HolderRow = {
  readonly centreId: number
  readonly centre: string
  readonly licenceNo: string
  readonly validFrom: string
  readonly validUntil: string | null
}

/** The centres authorised under a rule. */
export async function listHolders(_grant: Grant<'setup.read'>, key: string): Promise<HolderRow[]> {
  return db().$queryRaw<HolderRow[]>`
    select h.centre_id as "centreId", c.name as centre, h.licence_no as "licenceNo", h.valid_from::text as "validFrom",
           h.valid_until::text as "validUntil"
      from licence_holder h join centre c on c.id = h.centre_id where h.key = ${key}::text order by c.name`
}

/** The centres that can be authorised. */
export async function listHolderChoices(
  _grant: Grant<'setup.read'>,
): Promise<readonly { readonly id: number; readonly name: string }[]> {
  return db().centre.findMany({
    where: { isActive: true },
    orderBy: { name: 'asc' },
    select: { id: true, name: true },
  })
}

/** A centre is authorised; said again, the newer words hold. */
export async function putHolder({ tx }: EntryTx, key: string, holder: LicenceHolder): Promise<void> {
  const { centreId, licenceNo, validFrom, validUntil } = holder
  await tx.$executeRaw`
    insert into licence_holder (key, centre_id, licence_no, valid_from, valid_until)
    values (${key}::text, ${centreId}::int, ${licenceNo}::text, ${validFrom}::date, ${validUntil}::date)
    on conflict (key, centre_id) do update
       set licence_no = excluded.licence_no, valid_from = excluded.valid_from, valid_until = excluded.valid_until`
}

/** It is authorised no more. */
export async function removeHolder({ tx }: EntryTx, key: string, centreId: number): Promise<void> {
  await tx.$executeRaw`delete from licence_holder where key = ${key}::text and centre_id = ${centreId}::int`
}

export type LicenceWordRow = {
  readonly key: string
  readonly at: Date
  readonly words: string
  readonly entered: Entered
}

/** What was done about its clocks, the first first. */
export async function listLicenceWords(
  _grant: Grant<'casualty.read'>,
  casualtyId: number,
): Promise<LicenceWordRow[]> {
  const rows = await db().licenceWord.findMany({
    where: { casualtyId },
    orderBy: { id: 'asc' },
    include: { entry: entered },
  })
  return rows.map(({ key, at, words, entry }) => ({ key, at, words, entered: enteredOf(entry) }))
}

/** Registered, licensed, told: the clock of the rule warns no more. */
export async function recordLicenceWord(
  { tx, entryId }: EntryTx,
  casualtyId: number,
  said: { readonly key: string; readonly at: Date; readonly words: string },
): Promise<void> {
  await tx.licenceWord.create({ data: { ...said, entryId, casualtyId } })
}
