/**
 * What a person owes now, role by role, in one list.
 * Promise: reads only what each of her roles reaches; what counts in the navigation is what the page shows as due, and
 * needs no forecast. Tight spells come from the very forecast of Weeks ahead and are never counted.
 */
import type { Actor, Role } from '#lib/authz/actor.ts'
import { ROLES } from '#lib/authz/actor.ts'
import { demand, type Grant, may } from '#lib/authz/demand.ts'
import { listCentreDue, listDeskDue, listManagerDue, listPracticeDue } from '#lib/db/due.ts'
import { listSetupGaps } from '#lib/db/setup/gap.ts'
import { listStageRuns, type StageRun } from '#lib/db/stage-run.ts'
import { dayOfInstant, startOfDay } from '#lib/domain/day.ts'
import { type DueItem, inOrder, isHers, splitDue } from '#lib/domain/due.ts'
import type { Trade } from '#lib/domain/trade.ts'
import { residentEstimate } from '#lib/forecast/learned-estimate.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { type LineState, readLineState } from './line.ts'
import { readTonight, readTrade } from './network.ts'
import { getNetworkFacts } from './network-facts.ts'
import { askedSince } from './still-there.ts'
import { overviewOf } from './weeks.ts'

const TIGHT_DAYS = 60

export type DueSection = {
  readonly role: Role
  readonly due: readonly DueItem[]
  readonly later: readonly DueItem[]
}

export type DuePage = {
  readonly sections: readonly DueSection[]
  /** Everything due, whatever the role, in order. */
  readonly all: readonly DueItem[]
}

/** The page: one list a role, of what is owed as it was read for the page's head, or as it is read now. */
export async function readDue(
  actor: Actor,
  now: Date,
  owed: Promise<readonly DueItem[]> = readLineState(now).then(line => readOwed(actor, line, now)),
): Promise<DuePage> {
  const [items, tight] = await Promise.all([owed, listTight(actor, now)])
  const sections = rolesOf(actor).map(role => {
    const { due, later } = splitDue(
      items.filter(item => item.role === role),
      now,
    )
    return { role, due, later: inOrder([...later, ...tight.filter(item => item.role === role)]) }
  })
  return { sections, all: splitDue(items, now).due }
}

function rolesOf({ roles }: Actor): Role[] {
  return ROLES.filter(role => roles.some(held => held.role === role))
}

/** What somebody owes, due by now or later. */
export async function readOwed(actor: Actor, line: LineState, now: Date): Promise<readonly DueItem[]> {
  const grant = demand(actor, 'due.read')
  const { zone } = await getNetworkFacts()
  const roles = rolesOf(actor)
  const ids = (key: 'centreId' | 'practiceId') => actor.roles.flatMap(role => role[key] ?? [])
  const read: Readonly<Record<Role, () => Promise<DueItem[]>>> = {
    coordinator: () => listForDesk(grant, line, now),
    carer: async () => [
      ...(await listCentreDue(grant, ids('centreId'), now)),
      ...stillThere(await listStageRuns(grant, ids('centreId')), await readTrade(), now, zone),
    ],
    vet: () => listPracticeDue(grant, ids('practiceId'), now),
    manager: () => listManagerDue(grant, now),
    administrator: () => listSetupGaps(grant, now),
  }
  return (await Promise.all(roles.map(role => read[role]()))).flat()
}

async function listForDesk(grant: Grant<'due.read'>, line: LineState, now: Date): Promise<DueItem[]> {
  const { personId } = grant.actor
  if (personId === null) return []
  const holderId = line.unheld === undefined ? (line.turn?.holderId ?? null) : null
  const items = (await listDeskDue(grant, now)).filter(item => isHers(item, personId, { holderId }))
  return [...items, ...lineItems(line, personId, now)]
}

/** What the line itself asks of a coordinator: hand over, accept, or take it because nobody has it. */
function lineItems({ turn, unheld, offer }: LineState, personId: number, now: Date): DueItem[] {
  const item = (step: 'hand-over' | 'accept' | 'take-up', at: Date): DueItem => ({
    key: `line:${turn?.id ?? 0}`,
    role: 'coordinator',
    at,
    isDay: false,
    ownerId: null,
    owner: null,
    isOwnerThere: false,
    about: { kind: 'line', step, holder: turn?.holder ?? null },
  })
  const isMine = turn?.holderId === personId
  if (isMine) return [item('hand-over', turn.untilAt)]
  if (unheld !== undefined) return [item('take-up', turn?.untilAt ?? now)]
  const isOffered = offer !== undefined && (offer.toId === null || offer.toId === personId)
  return isOffered ? [item('accept', offer.offeredAt)] : []
}

/** Who is in a stage longer than 19 in 20 such stages last, however they end. */
function stillThere(runs: readonly StageRun[], trade: Trade, now: Date, zone: string): DueItem[] {
  const today = dayOfInstant(now, zone)
  return runs.flatMap(run => {
    const { stageNo: no, began: at, word } = run
    const resident = { ...run, since: at, began: { no, at }, word: word && { no, ...word } }
    const estimate = residentEstimate(trade, resident, { no, estimate: run.estimate }, zone)
    const since = askedSince(estimate, dayOfInstant(run.began, zone), today)
    return since === undefined ? [] : [stillThereItem(run, startOfDay(since + 1, zone))]
  })
}

function stillThereItem(run: StageRun, dayEnd: Date): DueItem {
  return {
    key: `still-there:${run.casualtyId}`,
    role: 'carer',
    at: new Date(dayEnd.getTime() - 1000),
    isDay: true,
    ownerId: null,
    owner: null,
    isOwnerThere: false,
    about: {
      kind: 'still-there',
      references: [run.reference],
      species: run.species,
      stage: run.estimate.stage,
      since: run.began,
      centre: run.centre,
    },
  }
}

/** A manager's tight spells, of each class its worst day. */
async function listTight(actor: Actor, now: Date): Promise<DueItem[]> {
  if (!rolesOf(actor).includes('manager') || !may(actor, 'forecast.read')) return []
  const tonight = await readTonight(now).catch((thrown: unknown) => {
    if (isFailure(thrown) && thrown.rule === 'network-not-set-up') return undefined
    throw thrown
  })
  if (tonight === undefined) return []
  const { classes } = overviewOf(demand(actor, 'forecast.read'), tonight, TIGHT_DAYS)
  return classes.flatMap(shown =>
    shown.tightDays === 0
      ? []
      : [
          {
            key: `tight:${shown.poolId}`,
            role: 'manager' as const,
            at: new Date(startOfDay(shown.worst.day + 1, tonight.state.zone).getTime() - 1000),
            isDay: true,
            ownerId: null,
            owner: null,
            isOwnerThere: false,
            about: {
              kind: 'tight' as const,
              centreId: shown.centreId,
              centre: shown.centre,
              housing: shown.housing,
              days: shown.tightDays,
              chance: shown.worst.chance,
            },
          },
        ],
  )
}
