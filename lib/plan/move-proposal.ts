/**
 * The placement rule for an animal in care: stay where it is, or move to the centre where the rest of its stay costs
 * least, the move itself included.
 * Promise: staying and moving are priced from one table by the same terms as an admission, so the terms of each add up
 * to its total as shown; in the middle of a stage it stays unless a move gains more than a margin. Nothing is proposed
 * out of or into a stopped site, nor in the middle of isolation. Units: place-days.
 */
import type { DayNumber } from '#lib/domain/day.ts'
import type { Named } from '#lib/domain/option.ts'
import type { Outlook, PlacementQuestion } from './model.ts'
import { barsTomorrow } from './rule.ts'
import { cheapestPaths, namedCentre, roadBetween, stayReasons, transferReasons } from './stay-bill.ts'
import { stayTable } from './stay-table.ts'
import { type Bill, billOf } from './term.ts'

/** In mid-stage a move has to gain so much; tried on simulated seasons, no published source. */
export const MID_STAGE_MARGIN = 0.1
const SHOWN_PER_DAY = 100

/** One way on, with what it costs. */
export type PricedWay = Bill & { readonly centre: Named }

export type MoveProposal = {
  readonly stay: PricedWay
  readonly move: PricedWay & { readonly km: number; readonly minutes: number }
  /** What moving costs less, as the two totals are shown. */
  readonly gain: number
}

export type MovingFrom = {
  readonly centreId: string
  /** The day on which it entered the first of the question's stages. */
  readonly enteredOn: DayNumber
  readonly isMidStage: boolean
}

/** The move that gains most; null where it does best to stay. */
export function proposeMove(
  question: PlacementQuestion,
  outlook: Outlook,
  from: MovingFrom,
): MoveProposal | null {
  const here = question.centres.findIndex(({ id }) => id === from.centreId)
  if (here === -1 || isHeldThere(question, here, from)) return null
  const table = stayTable(question, outlook, 'tonight', from.enteredOn)
  const cheapest = cheapestPaths(question, table)
  const home = namedCentre(question, here)
  const stay = { centre: home, ...billOf(stayReasons(question, table, cheapest.pathFrom(here))) }
  const moves = question.centres.flatMap((centre, at) => {
    if (at === here || barsTomorrow(question, centre) !== null) return []
    const to = namedCentre(question, at)
    const road = roadBetween(question, home, to)
    const bill = billOf([
      ...transferReasons(question, home, to, road, 1),
      ...stayReasons(question, table, cheapest.pathFrom(at)),
    ])
    return [{ centre: to, km: road.km, minutes: road.minutes, ...bill }]
  })
  const move = moves.reduce<(typeof moves)[number] | null>(
    (best, one) => (best === null || one.total < best.total ? one : best),
    null,
  )
  const margin = from.isMidStage ? MID_STAGE_MARGIN : 0
  if (move === null || stay.total <= move.total + margin) return null
  const gain = Math.round((stay.totalShown - move.totalShown) * SHOWN_PER_DAY) / SHOWN_PER_DAY
  return gain > 0 ? { stay, move, gain } : null
}

/** A stop lets nothing out; isolation is not left before its stage is over. */
function isHeldThere({ centres, animals }: PlacementQuestion, here: number, from: MovingFrom): boolean {
  const site = centres[here]?.site
  if (site?.kind === 'no movement' && site.coversThese) return true
  return from.isMidStage && animals.stages[0]?.needs.every(({ housing }) => housing === 'isolation') === true
}
