/**
 * A casualty is put to a practice: what is asked of the vet, what the centre offers afterwards, and a timer.
 * Promise: one open referral an animal; several practices may be asked for it and one yes wins. Nobody is asked twice
 * at once.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import {
  countStanding,
  createAsk,
  createReferral,
  createTry,
  findOpenReferral,
  updateReferral,
} from '#lib/db/ask.ts'
import type { EntryTx } from '#lib/db/entry.ts'
import { inEntry } from '#lib/db/entry.ts'
import { lockCasualty } from '#lib/db/stage.ts'
import { type ReferralPut, referralInput } from '#lib/domain/ask-answer.ts'
import { coverAt } from '#lib/domain/hours.ts'
import { parse } from '#lib/domain/parse.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { offersOf, practiceChoice } from '#lib/words/ask.ts'
import type { MayAsk } from './ask-turn.ts'
import { readState } from './network.ts'

const MS_PER_MINUTE = 60_000

/** Puts a casualty to a practice; gives the number of the ask. */
export async function putToPractice(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<number> {
  const grant = demand(actor, 'ask.put')
  const put = parse(referralInput, input)
  const { state } = await readState(now)
  const practice = state.practices.find(({ id }) => id === put.practiceId)
  if (practice === undefined)
    throw new Failure('invalid', { field: 'practiceId', rule: 'refers_to_what_is_there' })
  const cover = coverAt(practice, now, state.zone)
  const asked: Asked = {
    casualtyId,
    callId: null,
    put,
    practice: {
      id: practice.id,
      name: practice.name,
      phone: cover.kind === 'shut' ? practice.phone : cover.phone,
    },
    lapseMinutes: state.policy.ask_lapse_minutes,
    now,
  }
  return inEntry(
    grant,
    { now, action: 'put to a vet', subject: 'casualty', subjectId: casualtyId },
    async entry => {
      await lockCasualty(entry, casualtyId)
      return askPractice(grant, entry, asked)
    },
  )
}

export type Asked = {
  readonly casualtyId: number
  readonly callId: number | null
  readonly put: Omit<ReferralPut, 'practiceId'>
  readonly practice: { readonly id: number; readonly name: string; readonly phone: string }
  readonly lapseMinutes: number
  readonly now: Date
}

/** The ask itself, under the casualty's lock; the referral is made with the first. */
export async function askPractice(_grant: MayAsk, { tx }: EntryTx, asked: Asked): Promise<number> {
  const { casualtyId, callId, put, practice, lapseMinutes, now } = asked
  const said = { what: put.what, homeCentreId: put.homeCentreId ?? null, offers: put.offers }
  const open = await findOpenReferral(tx, casualtyId)
  if (open !== undefined) {
    const standing = await countStanding(tx, open.id, practice.id)
    if (standing.yes > 0) throw new Failure('rule', { rule: 'referral-agreed' })
    if (standing.waiting > 0)
      throw new Failure('rule', { rule: 'practice-asked-already', field: 'practiceId' })
    await updateReferral(tx, open.id, said)
  }
  const referralId = open?.id ?? (await createReferral(tx, { casualtyId, callId, ...said, openedAt: now }))
  const lapsesAt = new Date(now.getTime() + lapseMinutes * MS_PER_MINUTE)
  const askId = await createAsk(tx, {
    to: { kind: 'practice', id: practice.id },
    casualtyId,
    callId,
    referralId,
    turn: null,
    putAt: now,
    lapsesAt,
    agreedBy: null,
  })
  await createTry(
    tx,
    askId,
    1,
    { name: practice.name, phone: practice.phone, email: null },
    { putAt: now, lapsesAt },
  )
  return askId
}

export type ReferralForm = {
  readonly practices: readonly { readonly id: number; readonly text: string }[]
  readonly centres: readonly { readonly id: number; readonly name: string }[]
  readonly start: { readonly what: string; readonly offers: string; readonly homeCentreId: number | null }
}

/** What the form starts with: practices with a vet now first, what its plan has for afterwards. */
export async function readReferralForm(actor: Actor, casualtyId: number, now: Date): Promise<ReferralForm> {
  demand(actor, 'ask.put')
  const { state, trade } = await readState(now)
  const resident = state.residents.find(({ id }) => id === casualtyId)
  const group = resident === undefined ? undefined : speciesOf(trade, resident.species).group_slug
  const home = resident?.centreId ?? resident?.stages[0]?.centreId ?? null
  const ahead = (resident?.stages ?? [])
    .filter(({ no }) => no >= (resident?.began?.no ?? 1))
    .map(stage => ({ stage: stage.stage, housing: stage.housing, centre: { name: '' } }))
  return {
    practices: state.practices
      .map(practice => ({
        id: practice.id,
        cover: coverAt(practice, now, state.zone).kind,
        sees: group !== undefined && practice.sees.includes(group),
        name: practice.name,
      }))
      .sort((a, b) => rankOf(a) - rankOf(b) || (a.name < b.name ? -1 : 1))
      .map(({ id, name, cover, sees }) => ({ id, text: practiceChoice(name, cover === 'shut', sees) })),
    centres: state.centres.map(({ id, name }) => ({ id, name })),
    start: { what: '', offers: offersOf(ahead), homeCentreId: home },
  }
}

/** Those that see the kind and have a vet now come first; order by skill is another matter. */
function rankOf({ cover, sees }: { readonly cover: string; readonly sees: boolean }): number {
  return (sees ? 0 : 2) + (cover === 'shut' ? 1 : 0)
}
