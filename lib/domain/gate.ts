/**
 * The gates that an animal has before it: checks that bar the next stage or its release, each by its last result.
 * Promise: a check that repeats stands once; what was called off, or belongs to a stage left behind, bars nothing more.
 */
import type { GateBar } from './care-plan.ts'

export type GateCheck = {
  readonly slug: string
  readonly what: string
  readonly stageNo: number
  readonly requiredFor: GateBar | null
  readonly doneAt: Date | null
  readonly passed: boolean | null
  readonly isCalledOff: boolean
}

export type Gate = {
  readonly key: string
  readonly slug: string
  readonly what: string
  readonly requiredFor: GateBar | null
  readonly state: 'open' | 'passed' | 'not passed'
  readonly doneAt: Date | null
}

/** The gates from a stage on, in the order of the checks. */
export function gatesOf(checks: readonly GateCheck[], stageNo: number): Gate[] {
  const bars = checks.filter(
    check =>
      check.requiredFor !== null &&
      !check.isCalledOff &&
      (check.requiredFor === 'release' || check.stageNo >= stageNo),
  )
  const keys = [...new Set(bars.map(keyOf))]
  return keys.flatMap((key): Gate[] => {
    const own = bars.filter(check => keyOf(check) === key)
    const [any] = own
    if (any === undefined) return []
    const done = own
      .filter(check => check.doneAt !== null)
      .sort((a, b) => Number(b.doneAt) - Number(a.doneAt))[0]
    const { slug, what, requiredFor } = any
    const state = done === undefined ? 'open' : done.passed === true ? 'passed' : 'not passed'
    return [{ key, slug, what, requiredFor, state, doneAt: done?.doneAt ?? null }]
  })
}

function keyOf({ slug, stageNo, what }: GateCheck): string {
  return `${stageNo} ${slug} ${what}`
}
