/**
 * The duty line: who holds it, and whether it is held at all.
 * Promise: until a handover is accepted the old holder holds it; a turn whose end has passed, or whose holder was
 * switched off, counts as unheld though nobody took it yet. Hours are instants; a turn ends within a day.
 */
import { z } from 'zod'

export const TURN_HOWS = ['taken-up', 'accepted', 'taken-over', 'passed-on'] as const
export type TurnHow = (typeof TURN_HOWS)[number]

export type LineTurn = {
  readonly id: number
  readonly holderId: number
  readonly holder: string
  readonly phone: string | null
  /** Switched on, and still a coordinator. */
  readonly isHolderThere: boolean
  readonly takenAt: Date
  readonly untilAt: Date
  readonly how: TurnHow
  readonly reason: string | null
  /** What passed with it, as kind:id. */
  readonly passed: readonly string[]
  readonly endedAt: Date | null
}

export type LineOffer = {
  readonly id: number
  readonly turnId: number
  /** Null: whoever comes next. */
  readonly toId: number | null
  readonly to: string | null
  readonly words: string
  readonly offeredAt: Date
}

export type Unheld = 'nobody' | 'holder-gone' | 'past-its-end'

/** Why the line is unheld at an instant; undefined while somebody holds it. */
export function unheldBecause(turn: LineTurn | undefined, now: Date): Unheld | undefined {
  if (turn === undefined) return 'nobody'
  if (!turn.isHolderThere) return 'holder-gone'
  return turn.untilAt.getTime() <= now.getTime() ? 'past-its-end' : undefined
}

const MS_PER_HOUR = 3_600_000
export const TURN_HOURS_MAX = 24
/** A night's turn, common practice, no source. */
export const TURN_HOURS_USUAL = 8

/** The full hours of the network's clock at which a turn can end, the next one first. */
export function listTurnEnds(now: Date): Date[] {
  const next = Math.floor(now.getTime() / MS_PER_HOUR) * MS_PER_HOUR
  return Array.from({ length: TURN_HOURS_MAX }, (_, i) => new Date(next + (i + 1) * MS_PER_HOUR))
}

/** Whether a turn that begins now can end then. */
export function isTurnEnd(untilAt: Date, now: Date): boolean {
  const ahead = untilAt.getTime() - now.getTime()
  return ahead > 0 && ahead <= TURN_HOURS_MAX * MS_PER_HOUR
}

const REASON_MAX = 300
const WORDS_MAX = 2000
const id = z.coerce.number().int().positive()
/** The turn the person saw; none when nobody held the line. */
const seen = z.union([z.literal('').transform(() => null), id.nullable()]).default(null)

export const untilForm = z.object({
  untilAt: z.coerce.date().meta({ title: 'Until' }),
})

export const offerForm = z.object({
  to: z
    .union([z.literal('').transform(() => null), id.nullable()])
    .default(null)
    .meta({ title: 'To' }),
  words: z.string().trim().max(WORDS_MAX).default('').meta({ title: 'Written to the next person' }),
})

export const acceptForm = untilForm.extend({ turnId: seen })

export const takeOverForm = acceptForm.extend({
  reason: z.string().trim().min(1).max(REASON_MAX).meta({ title: 'Why' }),
})
