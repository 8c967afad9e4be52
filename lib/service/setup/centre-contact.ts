/**
 * Setting up who answers for a centre, in the order in which they are asked.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { listContacts, replaceContacts } from '#lib/db/setup/centre-contact.ts'
import { type CentreContact, contactsForm } from '#lib/domain/centre-contact.ts'
import { parse } from '#lib/domain/parse.ts'
import { versionForm } from '#lib/domain/setup-form.ts'

export async function getContacts(actor: Actor, centreId: number): Promise<CentreContact[]> {
  return listContacts(demand(actor, 'setup.read'), centreId)
}

export async function changeContacts(
  actor: Actor,
  centreId: number,
  input: unknown,
  now: Date,
): Promise<void> {
  const grant = demand(actor, 'setup.housing')
  const { version } = parse(versionForm, input)
  const { contacts } = parse(contactsForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'centre', subjectId: centreId, columns: ['contacts'] },
    entry => replaceContacts(entry, { id: centreId, version }, contacts),
  )
}
