import { dayOfInstant } from '#lib/domain/day.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { checkName } from '#lib/words/care.ts'
import { CARD, gateText } from '#lib/words/casualty.ts'

export type GateLine = {
  readonly key: string
  readonly state: string
  readonly text: string
  readonly isOpen: boolean
}

/** One line a gate that bars the way: by its last result, so that a check that repeats stands once. */
export function gateLines({ checks, zone, stageNow }: CasualtyCard): GateLine[] {
  const stageNo = stageNow?.stage.no ?? 1
  const bars = checks.filter(
    check =>
      check.requiredFor !== null &&
      !check.isCalledOff &&
      (check.requiredFor === 'release' || check.stageNo >= stageNo),
  )
  const keys = [...new Set(bars.map(keyOf))]
  return keys.flatMap((key): GateLine[] => {
    const own = bars.filter(check => keyOf(check) === key)
    const [any] = own
    if (any === undefined) return []
    const done = own
      .filter(check => check.doneAt !== null)
      .sort((a, b) => Number(b.doneAt) - Number(a.doneAt))[0]
    const state = done === undefined ? CARD.open : done.passed === true ? CARD.passed : CARD.notPassed
    const on = done?.doneAt == null ? null : dayOfInstant(done.doneAt, zone)
    return [
      {
        key,
        state,
        text: gateText(checkName(any.slug), any.what, any.requiredFor, on),
        isOpen: state !== CARD.passed,
      },
    ]
  })
}

function keyOf({ slug, stageNo, what }: CasualtyCard['checks'][number]): string {
  return `${stageNo} ${slug} ${what}`
}
