/**
 * Licences: what was done about an animal's clock, and which centres are authorised under a rule.
 * Promise: a centre that is not authorised is promised no such animal (a rule of the database); what happened is
 * recorded anywhere. A word about a clock ends its warnings and nothing else.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  type HolderRow,
  listHolderChoices,
  listHolders,
  putHolder,
  recordLicenceWord,
  removeHolder,
} from '#lib/db/licence.ts'
import { licenceHolderForm, licenceHolderOff, licenceWordInput } from '#lib/domain/licence.ts'
import { parse } from '#lib/domain/parse.ts'
import { type Recorded, record } from './about-casualty.ts'

/** Registered, licensed, told: the clock warns no more. */
export async function recordLicence(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded> {
  const { key, words } = parse(licenceWordInput, input)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: 'licence seen to',
    columns: ['key', 'words'],
  } as const
  return record(actor, about, now, entry => recordLicenceWord(entry, casualtyId, { key, at: now, words }))
}

export type Holders = {
  readonly holders: readonly HolderRow[]
  readonly choices: readonly { readonly id: number; readonly name: string }[]
}

/** Who is authorised under a rule, and who could be. */
export async function readHolders(actor: Actor, key: string): Promise<Holders> {
  const grant = demand(actor, 'setup.read')
  const [holders, choices] = await Promise.all([listHolders(grant, key), listHolderChoices(grant)])
  return { holders, choices }
}

/** A centre is authorised under a rule. */
export async function authoriseCentre(actor: Actor, key: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const holder = parse(licenceHolderForm, input)
  const about = { now, action: 'centre authorised', subject: 'rule', subjectId: `licence.${key}` }
  await inEntry(grant, { ...about, columns: ['licence_no', 'valid_from', 'valid_until'] }, entry =>
    putHolder(entry, key, holder),
  )
}

/** A centre is authorised no more. */
export async function removeCentre(actor: Actor, key: string, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.knowledge')
  const { centreId } = parse(licenceHolderOff, input)
  const about = { now, action: 'centre no longer authorised', subject: 'rule', subjectId: `licence.${key}` }
  await inEntry(grant, about, entry => removeHolder(entry, key, centreId))
}
