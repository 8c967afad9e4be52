/**
 * Several conditions in one animal, one plan.
 * Promise: the union of the stages in the order of care; the stricter housing, with pool and flight both kept as
 * features; all gates, a shared one with its earlier date, shorter interval and stricter bar; the larger median with
 * its 90th percentile, never a sum; the odds of the row with the smaller share that goes on (reference: plans,
 * "Several conditions"). Published odds already hold animals with several conditions, so nothing is multiplied.
 */
import { invariant } from '#lib/kernel/invariant.ts'
import {
  type CarePlan,
  CHECKERS,
  orderOfCare,
  type PlanGate,
  type PlanStage,
  type StageMarks,
} from './care-plan.ts'
import { leastDaysIn } from './care-plan-check.ts'
import type { Readiness } from './estimate.ts'
import { CARE_STAGES, type CareStage, type HousingType } from './housing.ts'

/** From the strictest: reference, plans, "Several conditions"; the order inside pens and aviaries is ours. */
const STRICTNESS: readonly HousingType[] = [
  'isolation',
  'intensive-care',
  'hospital-cage',
  'indoor-pen',
  'pool-pen',
  'outdoor-pen',
  'sheltered-aviary',
  'flight-aviary',
]

export type StageFeature = 'pool' | 'flight'

export type CombinedStage = {
  readonly stage: CareStage
  readonly housing: HousingType
  /** The plan group whose row gave the housing: an "any" group speaks in general, a named one for its animals. */
  readonly housingFrom: string
  readonly features: readonly StageFeature[]
  readonly sizeNote: string | null
  readonly estimate: PlanStage['estimate']
  readonly stateGate: string | null
  readonly carerMinutesPerDay: number | null
  readonly marks: StageMarks
}

export type CombinedPlan = {
  readonly planIds: readonly string[]
  readonly stages: readonly CombinedStage[]
  readonly gates: readonly PlanGate[]
}

type Row = { readonly plan: CarePlan; readonly stage: PlanStage }

/** One plan out of one or several; the order in which they are given makes no difference. */
export function combinePlans(plans: readonly CarePlan[]): CombinedPlan {
  invariant(plans.length > 0, 'a combination needs a plan')
  const sorted = [...new Map(plans.map(plan => [plan.id, plan])).values()].sort((a, b) =>
    a.id < b.id ? -1 : 1,
  )
  const rows = sorted.flatMap(plan => plan.stages.map(stage => ({ plan, stage })))
  const isUnderQuarantine = rows.some(
    ({ stage }) => stage.stage === 'quarantine' || stage.housing === 'isolation',
  )
  const gates = combineGates(sorted)
  return {
    planIds: sorted.map(plan => plan.id),
    stages: CARE_STAGES.flatMap(stage => {
      const same = rows.filter(row => row.stage.stage === stage)
      return same.length === 0 ? [] : [combineStage(stage, same, gates, isUnderQuarantine)]
    }),
    gates,
  }
}

function combineStage(
  stage: CareStage,
  rows: readonly Row[],
  gates: readonly PlanGate[],
  isUnderQuarantine: boolean,
): CombinedStage {
  const housed = best(rows, row => STRICTNESS.indexOf(row.stage.housing))
  const ended = best(rows, row => row.stage.estimate.shares.onward)
  const timed = best(rows, row => -readyRank(row.stage.estimate.ready))
  const busiest = best(rows, row => -(row.stage.carerMinutesPerDay ?? 0))
  const outcome = ended.stage.estimate
  return {
    stage,
    housing: stage === 'critical care' && isUnderQuarantine ? 'isolation' : housed.stage.housing,
    housingFrom: housed.plan.planGroup,
    features: featuresOf(rows.map(row => row.stage.housing)),
    sizeNote: housed.stage.sizeNote,
    estimate: {
      stage,
      ready: rows.map(row => row.stage.estimate.ready).reduce(laterReady),
      shares: outcome.shares,
      died: outcome.died,
      euthanased: outcome.euthanased,
      // Of the gates as combined, so that option, usual arrivals and the casualty's own copy wait alike.
      leastDays: leastDaysIn(gates, stage),
    },
    stateGate:
      timed.stage.stateGate ?? rows.find(row => row.stage.stateGate !== null)?.stage.stateGate ?? null,
    carerMinutesPerDay: busiest.stage.carerMinutesPerDay,
    marks: {
      size: housed.stage.marks.size,
      lengths: timed.stage.marks.lengths,
      exitTimes: ended.stage.marks.exitTimes,
      shares: ended.stage.marks.shares,
      minutes: busiest.stage.marks.minutes,
    },
  }
}

function featuresOf(types: readonly HousingType[]): StageFeature[] {
  const isMixed = types.includes('pool-pen') && types.some(type => type.endsWith('aviary'))
  return isMixed ? ['pool', 'flight'] : []
}

/** Date gates stand above lengths; within a kind the later one does. */
function readyRank(ready: Readiness): number {
  if (ready.kind === 'length') return ready.length.medianDays
  return 10_000 + Number(ready.opens.slice(0, 2)) * 31 + Number(ready.opens.slice(3))
}

/**
 * The later of two ways to be ready. A date gate beside a length keeps its date and waits at least that length;
 * two date gates keep the later opening day of the year and the longer least time.
 */
function laterReady(a: Readiness, b: Readiness): Readiness {
  const [later, sooner] = readyRank(a) >= readyRank(b) ? [a, b] : [b, a]
  if (later.kind === 'length') return later
  const least = sooner.kind === 'length' ? sooner.length.medianDays : sooner.minDays
  return { ...later, minDays: Math.max(later.minDays, least) }
}

/** A gate that several plans share is met once; the first radiograph of one meets the first of the other. */
function combineGates(plans: readonly CarePlan[]): PlanGate[] {
  const merged = new Map<string, PlanGate>()
  for (const plan of plans) {
    const seen = new Map<string, number>()
    for (const gate of [...plan.gates].sort((a, b) => (a.offsetDays ?? 0) - (b.offsetDays ?? 0))) {
      const kind = `${gate.stage}|${gate.check}|${gate.anchor}`
      const nth = seen.get(kind) ?? 0
      seen.set(kind, nth + 1)
      const key = `${kind}|${nth}`
      const before = merged.get(key)
      merged.set(key, before === undefined ? gate : stricterGate(before, gate))
    }
  }
  return [...merged.values()].sort(
    (a, b) =>
      orderOfCare(a.stage) - orderOfCare(b.stage) ||
      (a.offsetDays ?? Infinity) - (b.offsetDays ?? Infinity) ||
      0,
  )
}

function stricterGate(a: PlanGate, b: PlanGate): PlanGate {
  const [earlier, later] = (a.offsetDays ?? Infinity) <= (b.offsetDays ?? Infinity) ? [a, b] : [b, a]
  const isSame = earlier.mark === later.mark
  return {
    ...earlier,
    offsetDays: earlier.offsetDays,
    intervalDays: smaller(a.intervalDays, b.intervalDays),
    requiredFor: [a.requiredFor, b.requiredFor].includes('next stage')
      ? 'next stage'
      : (a.requiredFor ?? b.requiredFor),
    who: CHECKERS.indexOf(a.who) > CHECKERS.indexOf(b.who) ? a.who : b.who,
    mark: isSame ? earlier.mark : `${earlier.mark};${later.mark}`,
  }
}

function smaller(a: number | null, b: number | null): number | null {
  if (a === null || b === null) return a ?? b
  return Math.min(a, b)
}

function best(rows: readonly Row[], rank: (row: Row) => number): Row {
  return rows.reduce((kept, row) => (rank(row) < rank(kept) ? row : kept))
}
