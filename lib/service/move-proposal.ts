/**
 * The moves that help most: whoever's stage is ready, or who has no proper place, asked again by the placement rule.
 * Promise: priced by the forecast of this revision and hour, each animal taken out of it first so that it never competes
 * with itself; longest waiting first, what gains most at the head. Who is about to move already, and whose move is set
 * aside, is left out.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { listMovesAside } from '#lib/db/move-aside.ts'
import { listMoving, listShort } from '#lib/db/transfer.ts'
import { type AskedAgain, askedAgain } from '#lib/domain/coming-stages.ts'
import { dateOfDay, dayOfInstant } from '#lib/domain/day.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { ResidentState } from '#lib/domain/network-state.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import type { TransferBills } from '#lib/domain/transfer.ts'
import { type Forecast, withoutCasualty } from '#lib/forecast/forecast.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { type MoveProposal, type PricedWay, proposeMove } from '#lib/plan/move-proposal.ts'
import { isOffered } from '#lib/plan/offer.ts'
import { outlookOf } from '#lib/plan/outlook.ts'
import { moveQuestion } from '#lib/plan/question.ts'
import { againstWords, termDetail, termLabel } from '#lib/words/option-cost.ts'
import { readTonight, type Tonight } from './network.ts'

/** So many are asked about, the longest waiting first: each costs the prices of a forecast. */
const CONSIDERED_MAX = 24

export type ProposedMove = {
  readonly casualtyId: number
  readonly reference: string
  readonly species: string
  readonly why: AskedAgain['why']
  readonly since: Date
  readonly stage: CareStage
  readonly from: string
  readonly to: { readonly id: number; readonly name: string }
  readonly km: number
  readonly minutes: number
  /** The standing offer of the centre answers for it: nobody need be asked. */
  readonly isOffered: boolean
  readonly bills: TransferBills
}

const kept = new WeakMap<Forecast, { readonly key: string; readonly moves: readonly ProposedMove[] }>()

/** What would help, the largest gain first; nothing before the network is set up. */
export async function readProposedMoves(actor: Actor, now: Date): Promise<ProposedMove[]> {
  const grant = demand(actor, 'move.read')
  const [tonight, moving, short] = await Promise.all([
    readTonight(now).catch((thrown: unknown) => {
      if (isFailure(thrown) && thrown.rule === 'network-not-set-up') return undefined
      throw thrown
    }),
    listMoving(grant),
    listShort(grant, now),
  ])
  if (tonight === undefined) return []
  const today = dateOfDay(dayOfInstant(now, tonight.state.zone))
  const aside = new Set((await listMovesAside(grant, today)).map(({ casualtyId }) => casualtyId))
  const key = JSON.stringify([[...short].sort(ascending), [...aside].sort(ascending)])
  const known = kept.get(tonight.forecast)
  const found = known?.key === key ? known : { key, moves: findMoves(tonight, { short, aside }, now) }
  kept.set(tonight.forecast, found)
  return found.moves.filter(({ casualtyId }) => !moving.has(casualtyId))
}

const ascending = (a: number, b: number) => a - b

type Whose = { readonly short: ReadonlySet<number>; readonly aside: ReadonlySet<number> }

function findMoves(tonight: Tonight, { short, aside }: Whose, now: Date): ProposedMove[] {
  return tonight.state.residents
    .filter(({ id }) => !aside.has(id))
    .flatMap(resident => {
      const asked = askedAgain(resident, short.has(resident.id), now)
      return asked === null ? [] : [{ resident, asked }]
    })
    .sort((a, b) => a.asked.since.getTime() - b.asked.since.getTime())
    .slice(0, CONSIDERED_MAX)
    .flatMap(({ resident, asked }) => moveFor(tonight, resident, asked, now) ?? [])
    .sort((a, b) => b.bills.gain - a.bills.gain || a.casualtyId - b.casualtyId)
}

function moveFor(
  { state, trade, today, basis, forecast }: Tonight,
  resident: ResidentState,
  asked: AskedAgain,
  now: Date,
): ProposedMove | undefined {
  const question = moveQuestion(resident, asked.stages, { now, today, state, trade, pools: basis.pools })
  if (question === undefined) return undefined
  const outlook = outlookOf(withoutCasualty(forecast, String(resident.id)))
  const proposal = proposeMove(question, outlook, {
    centreId: String(resident.centreId),
    enteredOn: Math.min(today, dayOfInstant(asked.enteredAt, state.zone)),
    isMidStage: asked.why === 'short',
  })
  if (proposal === null) return undefined
  return {
    casualtyId: resident.id,
    reference: resident.reference,
    species: speciesOf(trade, resident.species).common_name,
    why: asked.why,
    since: asked.since,
    stage: asked.stages[0].estimate.stage,
    from: proposal.stay.centre.name,
    to: { id: Number(proposal.move.centre.id), name: proposal.move.centre.name },
    km: proposal.move.km,
    minutes: proposal.move.minutes,
    isOffered: isOffered(Number(proposal.move.centre.id), resident, { state, trade }, now),
    bills: billsOf(proposal),
  }
}

/** The two bills in words, with the largest term that speaks against staying. */
function billsOf({ stay, move, gain }: MoveProposal): TransferBills {
  const largest = [...stay.terms].sort((a, b) => b.value - a.value)[0]
  return {
    because: largest === undefined ? '' : againstWords(largest),
    gain,
    stay: wordsOf(stay),
    move: wordsOf(move),
  }
}

function wordsOf({ centre, terms, totalShown }: PricedWay): TransferBills['stay'] {
  return {
    centre: centre.name,
    terms: terms.map(term => ({ label: termLabel(term), detail: termDetail(term), placeDays: term.shown })),
    total: totalShown,
  }
}
