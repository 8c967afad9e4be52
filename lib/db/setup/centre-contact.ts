/**
 * Who answers for a centre, in order. Promise: the list is replaced as a whole over the version of the centre it was
 * read at. Writes run inside an entry.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import type { CentreContact } from '#lib/domain/centre-contact.ts'
import { db } from '../client.ts'
import type { EntryTx } from '../entry.ts'
import { refuseStale } from './stale.ts'

export async function listContacts(_grant: Grant<'setup.read'>, centreId: number): Promise<CentreContact[]> {
  return db().centreContact.findMany({
    where: { centreId },
    orderBy: { position: 'asc' },
    select: { name: true, phone: true, email: true, fromMinute: true, untilMinute: true },
  })
}

export async function replaceContacts(
  { tx }: EntryTx,
  { id, version }: { readonly id: number; readonly version: number },
  contacts: readonly CentreContact[],
): Promise<void> {
  const written = await tx.centre.updateMany({
    where: { id, version },
    data: { version: { increment: 1 } },
  })
  await refuseStale(written, () => tx.centre.findUnique({ where: { id }, select: { version: true } }))
  await tx.centreContact.deleteMany({ where: { centreId: id } })
  await tx.centreContact.createMany({
    data: contacts.map((contact, at) => ({ ...contact, centreId: id, position: at + 1 })),
  })
}
