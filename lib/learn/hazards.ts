/**
 * Chances of a stage day by day, for an animal still in it, and the law they make.
 * Promise: on every day died + euthanased + left <= 1 and 0 <= passes <= 1, so a law's masses and tails sum to 1.
 * Hazards are independent over days in the posterior (Walker and Muliere 1997, beta-Stacy; Dirichlet by causes), so
 * products of mean hazards are the exact means of survivals and cumulative incidences.
 */
import type { Exit } from '#lib/domain/housing.ts'
import { newByExit, type StageLaw } from '#lib/forecast/stage-law.ts'
import { type Evidence, type StageEvidence, UNBARRED } from './evidence.ts'

/**
 * `died`, `euthanased`, `left`: chance of it on day d since entry, of those in the stage. `passes`: chance to go on on
 * day k since the gate could be passed, of those that none of the three took that day. Arrays of `days` numbers.
 */
export type Hazards = {
  readonly days: number
  readonly died: Float64Array
  readonly euthanased: Float64Array
  readonly left: Float64Array
  readonly passes: Float64Array
}

/**
 * The mean hazards of evidence. With (x_died, x_euthanased, x_left, kept) the parameters of a Dirichlet and
 * (onward, stayed) those of a beta, independent over days: x/(sum) and onward/(onward + stayed). Where all could always
 * pass, kept = onward + stayed and the chance to go on is onward/(sum), the one Dirichlet of the engine's section 1.
 * A day that neither plan nor records reach ends the stage by going on.
 */
export function meanHazards(evidence: Evidence): Hazards {
  const { days } = evidence
  const made = {
    died: new Float64Array(days),
    euthanased: new Float64Array(days),
    left: new Float64Array(days),
  }
  const passes = new Float64Array(days)
  for (let d = 0; d < days; d++) {
    const total = evidence.died[d]! + evidence.euthanased[d]! + evidence.left[d]! + evidence.kept[d]!
    if (total > 0) for (const exit of UNBARRED) made[exit][d] = evidence[exit][d]! / total
    const able = evidence.onward[d]! + evidence.stayed[d]!
    passes[d] = able > 0 ? evidence.onward[d]! / able : 1
  }
  return { days, ...made, passes }
}

/**
 * The law that hazards make for an animal whose gate lets it pass `opens` days after it entered (0 where there is no
 * date gate): masses S(d-1) h_d by exit, survivals S(d), and what is left at the horizon shared by `beyond`.
 */
export function lawOfHazards(hazards: Hazards, beyond: Readonly<Record<Exit, number>>, opens = 0): StageLaw {
  const { days } = hazards
  const masses = newByExit(() => new Float64Array(days))
  const staying = new Float64Array(days)
  let alive = 1
  for (let d = 0; d < days; d++) {
    let kept = 1
    for (const exit of UNBARRED) {
      masses[exit][d] = alive * hazards[exit][d]!
      kept -= hazards[exit][d]!
    }
    kept = Math.max(0, kept)
    const passes = d < opens ? 0 : hazards.passes[d - opens]!
    masses.onward[d] = alive * kept * passes
    alive *= kept * (1 - passes)
    staying[d] = alive
  }
  return { days, masses, staying, tails: newByExit(exit => alive * beyond[exit]) }
}

/** The mean law of evidence; arguments as lawOfHazards. */
export function meanLaw(evidence: StageEvidence, opens = 0): StageLaw {
  return lawOfHazards(meanHazards(evidence), evidence.beyond, opens)
}

/**
 * The mean number of midnights that a law's stays pass, counted up to its horizon: the sum of S(d). In days; what
 * lies beyond the horizon is left out.
 */
export function meanStay({ staying }: StageLaw): number {
  return staying.reduce((sum, still) => sum + still, 0)
}

/**
 * The law of an animal that can go on only on days with `isOpen(d)`, d since it entered: whoever was fit earlier goes on
 * on the next such day, as a plan's booked check has it. Other exits stay. `law` is by fitness (fitnessOf).
 */
export function waitingFor(law: StageLaw, isOpen: (day: number) => boolean): StageLaw {
  const onward = new Float64Array(law.days)
  const staying = law.staying.slice()
  let waiting = 0
  for (let d = 0; d < law.days; d++) {
    waiting += law.masses.onward[d]!
    if (isOpen(d)) {
      onward[d] = waiting
      waiting = 0
    }
    staying[d] = staying[d]! + waiting
  }
  const tails = { ...law.tails, onward: law.tails.onward + waiting }
  return { days: law.days, masses: { ...law.masses, onward }, staying, tails }
}
