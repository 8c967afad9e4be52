import { dayOfInstant } from '#lib/domain/day.ts'
import { gatesOf } from '#lib/domain/gate.ts'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { checkName } from '#lib/words/care.ts'
import { CARD, gateText } from '#lib/words/casualty.ts'

export type GateLine = {
  readonly key: string
  readonly state: string
  readonly text: string
  readonly isOpen: boolean
}

const STATE = { open: CARD.open, passed: CARD.passed, 'not passed': CARD.notPassed } as const

/** One line a gate that bars the way. */
export function gateLines({ checks, zone, stageNow }: CasualtyCard): GateLine[] {
  return gatesOf(checks, stageNow?.stage.no ?? 1).map(gate => {
    const on = gate.doneAt === null ? null : dayOfInstant(gate.doneAt, zone)
    return {
      key: gate.key,
      state: STATE[gate.state],
      text: gateText(checkName(gate.slug), gate.what, gate.requiredFor, on),
      isOpen: gate.state !== 'passed',
    }
  })
}
