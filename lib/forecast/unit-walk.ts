/**
 * The way of one entry on day 0 through stages that no date ends.
 * Promise: the same for whoever goes by the same estimates, on whatever day and wherever, so it is walked once for all
 * streams of arrivals of a plan; kept as long as its estimates are.
 */
import type { Work } from '#lib/numerics/work.ts'
import type { PathStage, StageEstimate } from './model.ts'
import { oneOn } from './presence.ts'
import { passStage, type StageWalk } from './walk.ts'

type Passed = { readonly walk: StageWalk; readonly onward: Float64Array }
/** What follows the estimates so far; by the number of days walked. */
type Node = { readonly passed: Map<number, Passed>; readonly next: WeakMap<StageEstimate, Node> }

const roots = new WeakMap<StageEstimate, Node>()

/** One StageWalk a stage over `days` days. Throws RangeError for a stage that a date ends: its way depends on the day. */
export function unitWalk(stages: readonly PathStage[], days: number, work: Work): StageWalk[] {
  const walks: StageWalk[] = []
  let nodes = roots
  let enters: Float64Array | undefined
  for (const { estimate } of stages) {
    if (estimate.ready.kind === 'date gate')
      throw new RangeError(`stages need lengths, got a date gate in ${estimate.stage}`)
    const node: Node = nodes.get(estimate) ?? { passed: new Map(), next: new WeakMap() }
    nodes.set(estimate, node)
    const passed = node.passed.get(days) ?? pass(estimate, enters ?? oneOn(0, days), work)
    node.passed.set(days, passed)
    walks.push(passed.walk)
    enters = passed.onward
    nodes = node.next
  }
  return walks
}

function pass(estimate: StageEstimate, enters: Float64Array, work: Work): Passed {
  const { present, onward } = passStage(estimate, enters, 0, work)
  return { walk: { enters, present, wasIn: 0 }, onward }
}
