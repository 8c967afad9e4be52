/**
 * Options that are no admission: a known place outside the network, advice, and, for a suspected notifiable disease,
 * examination outside and the report.
 * Promise: each costs what policy says (ours, no source) plus the drive; none of them takes a place.
 */
import type { Destination, PlacementOption } from '#lib/domain/option.ts'
import type { Road } from '#lib/domain/place.ts'
import { bareOption } from './bare-option.ts'
import type { OutsidePlace, PlacementQuestion } from './model.ts'
import { driveReason } from './stay-bill.ts'
import { billOf, type PricedReason } from './term.ts'

/** Sending the finder to a known place outside; kept as unmet demand. */
export function redirectOption(question: PlacementQuestion, place: OutsidePlace): PlacementOption {
  const to: Destination = { kind: 'outside', id: place.id, name: place.name, phone: place.phone }
  const redirected: PricedReason = { value: question.policy.redirectDays, reason: { kind: 'redirected' } }
  return {
    ...bareOption('redirect', to),
    travel: place.road,
    isUnmetDemand: true,
    ...billOf([redirected, driveReason(question, to, place.road)]),
  }
}

/**
 * Advice and no admission. By the leave-alone rule it comes first and costs nothing; otherwise it is a refusal, is
 * kept as unmet demand and comes last whatever the others cost.
 */
export function adviceOption({ policy, isLeaveAlone, suspect }: PlacementQuestion): PlacementOption {
  const isHeld = suspect !== null && !suspect.hasLeave
  if (isLeaveAlone && !isHeld) return { ...bareOption('advice', null), orderRule: 'leave alone' }
  const refused: PricedReason = { value: policy.refusalDays, reason: { kind: 'refused' } }
  return {
    ...bareOption('advice', null),
    orderRule: 'refusal comes last',
    isUnmetDemand: true,
    ...billOf([refused]),
  }
}

/** Examination outside the building, at a centre or a practice: nothing is brought in. */
export function examineOutsideOption(
  question: PlacementQuestion,
  to: Destination,
  at: { readonly road: Road; readonly door: PlacementOption['door'] },
): PlacementOption {
  return {
    ...bareOption('examine outside', to),
    key: `examine-outside:${to.kind}:${to.id}`,
    orderRule: 'notifiable suspect',
    travel: at.road,
    door: at.door,
    ...billOf([driveReason(question, to, at.road)]),
  }
}

/** The report to the authority, the animal staying where it is: nobody looks at it, so it costs a refusal. */
export function reportOption({ policy }: PlacementQuestion): PlacementOption {
  const refused: PricedReason = { value: policy.refusalDays, reason: { kind: 'refused' } }
  return { ...bareOption('report', null), orderRule: 'notifiable suspect', ...billOf([refused]) }
}
