/** Learned hazards for tests: those of a plan's own law, or some that are said. */
import type { DayNumber } from '#lib/domain/day.ts'
import { EXITS, type Exit, newByExit, UNBARRED } from '#lib/domain/housing.ts'
import type { LearnedHazards } from '#lib/domain/stage-cell.ts'
import type { ForecastInput, PathStage, StageEstimate } from '#lib/forecast/model.ts'
import { gateDelayOf, type StageLaw, stageLaw } from '#lib/forecast/stage-law.ts'

/** Hazards of a few days, the rest going onward; `of` says which. */
export function learnedOf(
  of: Partial<Record<'died' | 'euthanased' | 'left' | 'passes', readonly number[]>>,
  change: Partial<LearnedHazards> = {},
): LearnedHazards {
  const days = Math.max(...Object.values(of).map(({ length }) => length))
  const filled = (some: readonly number[] = []) => Float64Array.from({ length: days }, (_, d) => some[d] ?? 0)
  return {
    key: 'a.plan|1',
    run: 'run 1',
    days,
    died: filled(of.died),
    euthanased: filled(of.euthanased),
    left: filled(of.left),
    passes: filled(of.passes),
    beyond: newByExit(exit => (exit === 'onward' ? 1 : 0)),
    ...change,
  }
}

/** The chances day by day that a law has, for an animal whose gate opened `opens` days after it entered. */
export function hazardsOf(law: StageLaw, opens = 0, key = 'a.plan|1'): LearnedHazards {
  const { days } = law
  const zeros = () => new Float64Array(days)
  const made = { died: zeros(), euthanased: zeros(), left: zeros(), passes: zeros() }
  let alive = 1
  for (let d = 0; d < days; d++) {
    const ended = (exit: Exit) => Math.max(0, law.masses[exit][d]!)
    const able = alive - UNBARRED.reduce((sum, exit) => sum + ended(exit), 0)
    for (const exit of UNBARRED) made[exit][d] = alive > 0 ? ended(exit) / alive : 0
    if (d >= opens) made.passes[d - opens] = able > 0 ? Math.min(1, ended('onward') / able) : 1
    alive = law.staying[d]!
  }
  const later = EXITS.reduce((sum, exit) => sum + law.tails[exit], 0)
  const beyond = newByExit(exit => (later > 0 ? law.tails[exit] / later : exit === 'onward' ? 1 : 0))
  return { key, run: 'run 1', days, ...made, beyond }
}

/** The stage with its plan's own chances as what was learned; of a date gate those of an entry on `entryDay`. */
export function learnedAsPlanned(
  estimate: StageEstimate,
  days: number,
  entryDay: DayNumber = 0,
): StageEstimate {
  const { leastDays: _booked, ...free } = estimate
  const law = stageLaw(free, entryDay, days)
  return { ...estimate, learned: hazardsOf(law, gateDelayOf(estimate, entryDay)) }
}

/** The input with every estimate replaced, the same object for the same one. */
export function withEstimates(
  input: ForecastInput,
  change: (estimate: StageEstimate) => StageEstimate,
): ForecastInput {
  const known = new Map<StageEstimate, StageEstimate>()
  const changed = (estimate: StageEstimate) => {
    const made = known.get(estimate) ?? change(estimate)
    known.set(estimate, made)
    return made
  }
  const along = (stages: readonly PathStage[]) =>
    stages.map(stage => ({ ...stage, estimate: changed(stage.estimate) }))
  return {
    ...input,
    itineraries: input.itineraries.map(one => ({ ...one, stages: along(one.stages) })),
    arrivals: input.arrivals.map(one => ({ ...one, stages: along(one.stages) })),
  }
}
