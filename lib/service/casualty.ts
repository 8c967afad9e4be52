/**
 * The card of one animal: its stay, what is due, what stands before its release, its facts, what happened, and where it
 * could go. Promise: one revision; the days ahead are those of the one forecast; whoever may not see the animal learns
 * nothing of it (404). Days are day numbers, places those of the centre asked for.
 */
import { z } from 'zod'
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand, may, type Row } from '#lib/authz/demand.ts'
import type { InCare } from '#lib/db/batch.ts'
import {
  type BrokenFor,
  type CasualtyHead,
  type CasualtyNow,
  type CheckRow,
  findCasualtyId,
  type HoldKept,
  type listOtherKeepers,
} from '#lib/db/casualty.ts'
import {
  listDecisions,
  type listStageFacts,
  type PlanRow,
  type PlanStageRow,
  type WeightRow,
} from '#lib/db/casualty-happened.ts'
import type { Displaced } from '#lib/db/check.ts'
import { getReach } from '#lib/db/keeping.ts'
import { listLicenceWords } from '#lib/db/licence.ts'
import { getReleaseOf } from '#lib/db/release.ts'
import { listSeasons } from '#lib/db/season.ts'
import type { ImplantRow, SurgeryRow } from '#lib/db/surgery.ts'
import type { VetWordRow } from '#lib/db/vet-word.ts'
import type { Caution } from '#lib/domain/caution.ts'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import type { SpeciesKnowledge } from '#lib/domain/knowledge.ts'
import type { Misfit } from '#lib/domain/need.ts'
import { parse } from '#lib/domain/parse.ts'
import { idInput } from '#lib/domain/record.ts'
import type { Overwinter, SpeciesSeason } from '#lib/domain/season-gate.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import type { Unlikely } from '#lib/domain/weight.ts'
import { Failure } from '#lib/kernel/failure.ts'
import {
  cautionsOfCard,
  type JoinableHere,
  joinableHere,
  type LicenceClock,
  licenceClocks,
  misfitsHere,
  type PlacesAt,
  placesAt,
  type ReleaseShown,
  releaseShown,
  speciesChoices,
  unauthorisedHere,
  vetWordNow,
  weighedOf,
} from './casualty-card.ts'
import { type Happened, happenedOf } from './casualty-happened.ts'
import type { Late } from './casualty-late.ts'
import { type RibbonOfStay, ribbonOfStay } from './casualty-ribbon.ts'
import { readHistory, readNow } from './casualty-rows.ts'
import { type CompanionSearch, findCompanions } from './companion.ts'
import { readTonight } from './network.ts'
import { findStayAhead, type StayAhead } from './stay-ahead.ts'

const cardQuery = z.object({ to: idInput.optional() })

export type StageNow = {
  readonly stage: PlanStageRow
  readonly next: PlanStageRow | undefined
  readonly beganOn: DayNumber | null
  readonly readyAt: Date | null
}

export type CasualtyCard = {
  readonly today: DayNumber
  readonly zone: string
  readonly revision: number
  readonly head: CasualtyHead
  readonly species: SpeciesKnowledge
  readonly now: CasualtyNow
  readonly holds: readonly HoldKept[]
  readonly broken: readonly BrokenFor[]
  readonly late: Late
  readonly arrivedOn: DayNumber
  /** Those it is counted with that are still in care, itself among them. */
  readonly batch: readonly InCare[]
  /** Groups and single ones here that it could be put together with. */
  readonly joinable: readonly JoinableHere[]
  readonly plan: PlanRow | undefined
  /** Every version of its plan, the first first. */
  readonly plans: readonly PlanRow[]
  readonly surgeries: readonly SurgeryRow[]
  readonly implants: readonly ImplantRow[]
  /** What a vet said last of how long it needs in the stage it is in, until it is ready to leave that. */
  readonly vetWord: VetWordRow | undefined
  /** Promises that checks which were not passed took away or moved, the newest check first. */
  readonly displaced: readonly Displaced[]
  readonly stageNow: StageNow | undefined
  readonly ahead: StayAhead | undefined
  readonly ribbon: RibbonOfStay | undefined
  readonly checks: readonly CheckRow[]
  readonly lastWeight: WeightRow | undefined
  /** Weights that stand, the first first. */
  readonly weights: readonly WeightRow[]
  /** What is unlikely about the newest, until somebody says that it is right. */
  readonly doubt: Unlikely | undefined
  readonly seasons: readonly SpeciesSeason[]
  readonly overwinter: Overwinter | undefined
  /** Where it went, as the reader may know it; what stood against that; what it waits for. */
  readonly release: ReleaseShown
  readonly licences: readonly LicenceClock[]
  /** The rule under which the centre that has it may not hold it. */
  readonly unauthorised: string | undefined
  readonly cautions: Readonly<Record<'card' | 'outcome' | 'release', readonly Caution[]>>
  readonly happened: readonly Happened[]
  /** Who could keep it company, where it is young and alone. */
  readonly companions: CompanionSearch | undefined
  readonly can: { readonly record: boolean; readonly revise: boolean; readonly outcome: boolean }
  /** Why its enclosure does not suit its stage. */
  readonly misfits: readonly Misfit[]
  readonly places: PlacesAt | undefined
  readonly others: Awaited<ReturnType<typeof listOtherKeepers>>
  readonly speciesChoices: readonly { readonly slug: string; readonly name: string; readonly group: string }[]
}

/** The newest animal of a reference, whom it concerns, and the right to read it. Failure 'not-found' out of sight. */
async function findCard(actor: Actor, reference: string) {
  const system = demand(systemActor('whose card'), 'system.run')
  const id = await findCasualtyId(system, reference)
  if (id === undefined) throw new Failure('not-found')
  const reach = await getReach(system, id)
  return { id, reach, grant: demand(actor, 'casualty.read', reach) }
}

/** The card of the newest animal of a reference. Failure 'not-found' out of sight. */
export async function readCasualty(
  actor: Actor,
  reference: string,
  query: unknown,
  now: Date,
): Promise<CasualtyCard> {
  const { id, reach, grant } = await findCard(actor, reference)
  const asked = parse(cardQuery, query)
  const tonight = await readTonight(now)
  const [{ atCentre, ...rows }, history] = await Promise.all([
    readNow(grant, id, now),
    readHistory(grant, id),
  ])
  const { state, trade, today } = tonight
  const { head, current, holds } = rows
  const plan = history.plans.at(-1)
  const ahead = findStayAhead(tonight, id)
  const species = speciesOf(trade, head.species)
  const arrivedOn = dayOfInstant(head.arrival.at, state.zone)
  const [seasons, released, licenceWords] = await Promise.all([
    listSeasons(grant, head.species),
    getReleaseOf(grant, id, current.keepingId),
    listLicenceWords(grant, id),
  ])
  const stageNow = stageNowOf(plan, history.stageFacts, state.zone)
  const can = rightsOn(actor, reach)
  return {
    ...rows,
    joinable: can.record ? joinableHere(tonight, rows.batch, atCentre, now) : [],
    today,
    zone: state.zone,
    revision: state.revision,
    species,
    now: current,
    arrivedOn,
    plan,
    ...standingOf(history, stageNow),
    stageNow,
    ahead,
    ribbon: ribbonOfStay({ tonight, ahead, plan, checks: rows.checks, ...history }),
    ...weighedOf(
      { all: history.weights, seasons, plan, species, age: head.age, isOpen: current.keeper !== 'nobody' },
      today,
    ),
    unauthorised: unauthorisedHere(tonight, species, current),
    release: releaseShown(released, species, can.record),
    licences: licenceClocks(tonight, { species, arrivedOn, keeper: current.keeper, words: licenceWords }),
    cautions: cautionsOfCard(tonight, head, species),
    happened: happenedOf({
      ...history,
      checks: rows.checks,
      metThen: rows.late.metThen,
      decisions: await listDecisions(grant, head.arrival.id),
    }),
    companions: current.keeper === 'centre' ? await findCompanions(grant, tonight, id, now) : undefined,
    can,
    misfits: misfitsHere(tonight, id, stageNow?.stage.no),
    places:
      can.record && current.keeper !== 'nobody'
        ? placesAt(demand(actor, 'placement.read'), tonight, {
            casualtyId: id,
            centreId: asked.to ?? holds[0]?.centreId ?? current.centreId,
            stageNo: stageToHouse(stageNow),
            now,
          })
        : undefined,
    speciesChoices: speciesChoices(tonight),
  }
}

/** What was said of its stay and stands. */
function standingOf(
  { plans, surgeries, displaced, vetWords }: Awaited<ReturnType<typeof readHistory>>,
  stageNow: StageNow | undefined,
) {
  return {
    plans,
    surgeries: surgeries.filter(one => !one.isTakenBack),
    displaced,
    vetWord: vetWordNow(stageNow, vetWords),
  }
}

/** The stage that its next place is for. */
function stageToHouse(stageNow: StageNow | undefined): number | undefined {
  if (stageNow?.readyAt == null) return stageNow?.stage.no
  return (stageNow.next ?? stageNow.stage).no
}

function rightsOn(actor: Actor, reach: Row) {
  return {
    record: may(actor, 'casualty.record', reach),
    revise: may(actor, 'casualty.revise', reach),
    outcome: may(actor, 'outcome.record', reach),
  }
}

function stageNowOf(
  plan: PlanRow | undefined,
  facts: Awaited<ReturnType<typeof listStageFacts>>,
  zone: string,
): StageNow | undefined {
  const began = facts.filter(({ kind }) => kind === 'began').sort((a, b) => b.stageNo - a.stageNo)[0]
  const stage = plan?.stages.find(({ no }) => no === began?.stageNo) ?? plan?.stages[0]
  if (stage === undefined) return undefined
  const ready = facts.findLast(fact => fact.kind === 'ready' && fact.stageNo === stage.no)
  return {
    stage,
    next: plan?.stages.find(({ no }) => no > stage.no),
    beganOn: began === undefined ? null : dayOfInstant(began.at, zone),
    readyAt: ready?.at ?? null,
  }
}

/** Whether somebody may still see an animal after it was recorded elsewhere. */
export async function maySeeCasualty(actor: Actor, casualtyId: number): Promise<boolean> {
  const reach = await getReach(demand(systemActor('whose card'), 'system.run'), casualtyId)
  return may(actor, 'casualty.read', reach)
}
