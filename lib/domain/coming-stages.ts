/**
 * Whether an animal in care is asked about again: its stage is ready for the next, or it has no proper place.
 * Promise: only at a centre, only while a stage is still to come; what is ready asks about the stages after it, what is
 * short about the stage it is in. Instants as Dates.
 */
import type { PlannedStage, ResidentState } from './network-state.ts'

export type AskedAgain = {
  readonly why: 'ready' | 'short'
  /** Since when it waits. */
  readonly since: Date
  /** What is still to come, the first of them now. */
  readonly stages: readonly [PlannedStage, ...PlannedStage[]]
  /** When it entered the first of them; now, where it is about to. */
  readonly enteredAt: Date
}

/** Why an animal is asked about again and what is to come; null when it stays as it is. */
export function askedAgain(resident: ResidentState, isShort: boolean, now: Date): AskedAgain | null {
  if (resident.keeper !== 'centre') return null
  const at = currentStage(resident)
  const isReady = isReadyNow(resident)
  const [first, ...rest] = resident.stages.slice(isReady ? at + 1 : at)
  if (first === undefined || !(isReady || isShort)) return null
  if (isReady)
    return {
      why: 'ready',
      since: resident.ready?.at ?? resident.since,
      stages: [first, ...rest],
      enteredAt: now,
    }
  const enteredAt = resident.began?.at ?? resident.since
  return { why: 'short', since: resident.since, stages: [first, ...rest], enteredAt }
}

/** The stage whose place an animal needs where it goes: the next if it is ready, else the one it is in. */
export function stageToPlace(resident: ResidentState): PlannedStage | undefined {
  const at = currentStage(resident)
  return (isReadyNow(resident) ? resident.stages[at + 1] : undefined) ?? resident.stages[at]
}

function currentStage({ began, stages }: ResidentState): number {
  return Math.max(
    0,
    stages.findIndex(({ no }) => no === began?.no),
  )
}

function isReadyNow(resident: ResidentState): boolean {
  const current = resident.stages[currentStage(resident)]
  return current !== undefined && resident.ready?.no === current.no
}
