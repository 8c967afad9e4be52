/**
 * The law of a stage that chances day by day make, for an animal still in it.
 * Promise: masses and tails sum to 1 while the chances of a day do. Hazards are independent over days in the posterior
 * they come from (Walker and Muliere 1997, beta-Stacy; Dirichlet by causes), so products of mean hazards are the exact
 * means of survivals and cumulative incidences.
 */
import { EXITS, type Exit, newByExit, UNBARRED } from '#lib/domain/housing.ts'
import { neumaierSum } from '#lib/numerics/neumaier-sum.ts'
import type { StageLaw } from './stage-law.ts'

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
 * The law that hazards make for an animal whose gate lets it pass `opens` days after it entered (0 where there is no
 * date gate): masses S(d-1) h_d by exit, survivals S(d), and what is left at the end shared by `beyond`. Days past those
 * of the hazards keep the last one's chance to end, shared by `beyond` too once the gate lets pass: so how it ends in the
 * end does not depend on the days asked for.
 */
export function lawOfHazards(
  hazards: Hazards,
  beyond: Readonly<Record<Exit, number>>,
  opens = 0,
  days = hazards.days,
): StageLaw {
  const masses = newByExit(() => new Float64Array(days))
  const staying = new Float64Array(days)
  const last = hazards.days - 1
  let alive = 1
  for (let d = 0; d < days; d++) {
    const known = Math.min(d, last)
    let kept = 1
    for (const exit of UNBARRED) {
      masses[exit][d] = alive * hazards[exit][known]!
      kept -= hazards[exit][known]!
    }
    kept = Math.max(0, kept)
    const passes = d < opens ? 0 : hazards.passes[Math.min(d - opens, last)]!
    masses.onward[d] = alive * kept * passes
    const after = alive * kept * (1 - passes)
    if (d > last && d >= opens) for (const exit of EXITS) masses[exit][d] = (alive - after) * beyond[exit]
    alive = after
    staying[d] = alive
  }
  return { days, masses, staying, tails: newByExit(exit => alive * beyond[exit]) }
}

/**
 * The hazards that make a law, of an animal whose gate lets it pass `opens` days after it entered, and how it shares what
 * is left at the end: as many days of them as the law has after that day. Where nobody is left to go on, the chance is 1.
 */
export function hazardsOfLaw(
  { days, masses, tails, staying }: StageLaw,
  opens = 0,
): Hazards & { readonly beyond: Readonly<Record<Exit, number>> } {
  const known = days - opens
  const zeros = () => new Float64Array(known)
  const made = { died: zeros(), euthanased: zeros(), left: zeros(), passes: zeros() }
  let alive = 1
  for (let d = 0; d < days; d++) {
    let able = alive
    for (const exit of UNBARRED) {
      if (d < known && alive > 0) made[exit][d] = masses[exit][d]! / alive
      able -= masses[exit][d]!
    }
    if (d >= opens) made.passes[d - opens] = able > 0 ? Math.min(1, masses.onward[d]! / able) : 1
    alive = staying[d]!
  }
  const later = newByExit(exit => tails[exit] + neumaierSum(masses[exit].subarray(known)))
  const all = neumaierSum(EXITS.map(exit => later[exit]))
  const beyond = newByExit(exit => (all > 0 ? later[exit] / all : exit === 'onward' ? 1 : 0))
  return { days: known, ...made, beyond }
}

/**
 * The law of an animal that can go on only on days with `isOpen(d)`, d since it entered: whoever was fit earlier goes on
 * on the next such day, as a plan's booked check has it. Other exits stay. `law` is by fitness.
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
