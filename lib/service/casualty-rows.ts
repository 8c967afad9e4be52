/**
 * The rows behind the card of one animal: how it is now, and what happened to it. Promise: whoever holds the grant may
 * read them all. Internal to lib/service.
 */
import type { Grant } from '#lib/authz/demand.ts'
import { listAtItsCentre, listBatchInCare } from '#lib/db/batch.ts'
import {
  getCasualtyHead,
  getCasualtyNow,
  listBrokenBy,
  listChecks,
  listHolds,
  listOtherKeepers,
} from '#lib/db/casualty.ts'
import {
  listIdentified,
  listKeepings,
  listNotes,
  listPlans,
  listStageFacts,
  listWeights,
} from '#lib/db/casualty-happened.ts'
import { listDisplaced } from '#lib/db/check.ts'
import { listMemberships } from '#lib/db/membership.ts'
import { listNotStanding } from '#lib/db/round-entry.ts'
import { listImplants, listSurgeries } from '#lib/db/surgery.ts'
import { listVetWords } from '#lib/db/vet-word.ts'
import { readLate } from './casualty-late.ts'

/** How it is now. */
export async function readNow(grant: Grant<'casualty.read'>, id: number, now: Date) {
  const where = getCasualtyNow(grant, id, now)
  const [head, current, late, holds, broken, checks, others, batch, atCentre, implants] = await Promise.all([
    getCasualtyHead(grant, id),
    where,
    readLate(grant, id, where, now),
    listHolds(grant, id),
    listBrokenBy(grant, id),
    listChecks(grant, id),
    listOtherKeepers(grant),
    listBatchInCare(grant, id),
    listAtItsCentre(grant, id),
    listImplants(grant, id),
  ])
  return { head, current, holds, broken, checks, others, batch, atCentre, implants, late }
}

/** What happened to it, with what was taken back. */
export async function readHistory(grant: Grant<'casualty.read'>, id: number) {
  const [facts, surgeries, vetWords, displaced, taps, memberships] = await Promise.all([
    readFacts(grant, id),
    listSurgeries(grant, id),
    listVetWords(grant, id),
    listDisplaced(grant, id),
    listNotStanding(grant, id),
    listMemberships(grant, id),
  ])
  return { ...facts, surgeries, vetWords, displaced, taps, memberships }
}

async function readFacts(grant: Grant<'casualty.read'>, id: number) {
  const [keepings, stageFacts, weights, notes, plans, identified] = await Promise.all([
    listKeepings(grant, id),
    listStageFacts(grant, id),
    listWeights(grant, id),
    listNotes(grant, id),
    listPlans(grant, id),
    listIdentified(grant, id),
  ])
  return { keepings, stageFacts, weights, notes, plans, identified }
}
