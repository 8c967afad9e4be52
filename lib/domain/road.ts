/**
 * Journeys by road: legs with a driver each, as a person plans them and as drivers report.
 * Promise: a plan names at least one leg; each is due after it is picked up, and no leg is picked up before the one
 * before it is due, so that the animals never wait alone. Instants by the network's clock.
 */
import { z } from 'zod'
import { filledRows } from './form-rows.ts'
import type { Moment } from './parse.ts'
import { idInput } from './record.ts'
import { localDateTimeText } from './text.ts'

export const LEG_STATES = ['planned', 'on the road', 'delivered', 'cant', 'called-off'] as const
export type LegState = (typeof LEG_STATES)[number]

export const JOURNEY_ANIMAL_STATES = [
  'open',
  'arrived',
  'turned-back',
  'elsewhere',
  'ended',
  'called-off',
] as const
export type JourneyAnimalState = (typeof JOURNEY_ANIMAL_STATES)[number]

/** A driver by number, or the finder, who drives it in. */
export type LegDriver = { readonly kind: 'driver'; readonly id: number } | { readonly kind: 'finder' }

export const PLACE_WORDS_MAX = 200
export const CARRY_MAX = 400
export const CANT_MAX = 300
/** A leg's link opens nothing so long after the leg was due. Ours. */
export const LINK_HOURS = 12

const placeWords = z.string().trim().min(1).max(PLACE_WORDS_MAX)
const blank = z.literal('').transform(() => undefined)

/** "finder", or a driver's number. */
const driverText = z
  .string()
  .trim()
  .superRefine((text, context) => {
    if (text === 'finder' || /^[1-9]\d{0,8}$/.test(text)) return
    context.addIssue({ code: 'custom', input: text, params: { rule: 'missing' } })
  })
  .transform(
    (text): LegDriver => (text === 'finder' ? { kind: 'finder' } : { kind: 'driver', id: Number(text) }),
  )

const legInput = ({ zone }: Moment) =>
  z
    .object({
      driver: driverText,
      fromWords: placeWords,
      toWords: placeWords,
      pickUpAt: localDateTimeText(zone),
      dueAt: localDateTimeText(zone),
    })
    .refine(leg => leg.dueAt > leg.pickUpAt, { path: ['dueAt'], params: { rule: 'leg_due_after_pick_up' } })
export type LegPlan = {
  readonly driver: LegDriver
  readonly fromWords: string
  readonly toWords: string
  readonly pickUpAt: Date
  readonly dueAt: Date
}

/** "centre:2" or "practice:1". */
const goal = z
  .string()
  .regex(/^(centre|practice):[1-9]\d{0,8}$/)
  .transform(text => {
    const [kind, id] = text.split(':')
    return kind === 'centre'
      ? ({ kind: 'centre', id: Number(id) } as const)
      : ({ kind: 'practice', id: Number(id) } as const)
  })

/** A journey as it is planned: who, where to, and its legs in order. */
export const journeyInput = (moment: Moment) =>
  z.object({
    animals: z.array(idInput).min(1).max(60),
    to: goal,
    carry: z.string().trim().max(CARRY_MAX).default(''),
    legs: filledRows(legInput(moment)).superRefine((legs, context) => {
      const [first] = legs
      if (first === undefined) {
        context.addIssue({ code: 'custom', input: legs, path: [0, 'driver'], params: { rule: 'missing' } })
        return
      }
      const at = legs.findIndex((leg, n) => n > 0 && leg.pickUpAt < (legs[n - 1] ?? leg).dueAt)
      if (at === -1) return
      context.addIssue({
        code: 'custom',
        input: legs,
        path: [at, 'pickUpAt'],
        params: { rule: 'legs-in-order' },
      })
    }),
  })
export type JourneyPlan = z.infer<ReturnType<typeof journeyInput>>

/** One leg given to somebody else. */
export const otherDriverInput = legInput

/** What a driver says: on the page of the link, or on the phone to the desk. */
export const driveInput = z.object({
  say: z.enum(['have', 'delivered', 'cant']),
  reason: z
    .union([blank, z.string().trim().min(1).max(CANT_MAX)])
    .optional()
    .transform(words => words ?? null),
})
export type DriveSaid = z.infer<typeof driveInput>

type LegTimes = {
  readonly state: LegState
  readonly lateAt: Date | null
}

/** A leg that somebody has to see to now: its driver is late, or can't and nobody else was found. */
export type Trouble = 'late' | 'cant'

/** What is wrong with a leg among all of its journey; undefined when nothing is, or somebody else drives it now. */
export function troubleOf(
  leg: LegTimes & { readonly legNo: number },
  legs: readonly (LegTimes & { readonly legNo: number })[],
): Trouble | undefined {
  if (leg.state === 'planned' || leg.state === 'on the road') return leg.lateAt === null ? undefined : 'late'
  if (leg.state !== 'cant') return undefined
  const isDriven = legs.some(
    other => other.legNo === leg.legNo && ['planned', 'on the road', 'delivered'].includes(other.state),
  )
  return isDriven ? undefined : 'cant'
}
