/**
 * What can be said about an animal in care: the inputs of every fact and plan, as forms send them and code passes them.
 * Promise: numbers and times come typed or as text by the network's clock; a time left out means now. A fact lies not
 * after now; its precision is the span in which it may lie. Whether a plan is allowed is decided elsewhere.
 */
import { z } from 'zod'
import { SITE_STATES } from './centre.ts'
import { FOUND } from './check-result.ts'
import { LENGTH_MAX_DAYS, stageEstimate } from './estimate.ts'
import { ALIVE_ANSWERS, WHERE_NOW } from './outcome.ts'
import type { Moment } from './parse.ts'
import { AGES } from './species.ts'
import { localDateTimeText } from './text.ts'

const WORDS_MAX = 2000
const REASON_MAX = 300
const GRAMS_MAX = 1_000_000
const PLACE_MAX = 500
const OVERRIDE_MIN = 5
const SIGNED_BY_MAX = 80
const CLOCK_SKEW_MS = 5 * 60_000

export const idInput = z.coerce.number().int().positive()
const blank = z.literal('').transform(() => undefined)
const reason = z.string().trim().max(REASON_MAX)
const optionalId = z.union([blank, idInput]).optional()
const optionalPlace = z.union([blank, z.coerce.number().int().min(1).max(PLACE_MAX)]).optional()
const override = z.union([blank, reason.min(OVERRIDE_MIN)]).optional()
const yes = z.union([
  z.boolean(),
  z.enum(['yes', 'no', 'on', '']).transform(text => ['yes', 'on'].includes(text)),
])

const instant = ({ zone }: Moment) => z.union([z.date(), localDateTimeText(zone)])
export const optionalInstant = (at: Moment) => z.union([blank, instant(at)]).optional()

/** When something happened: now if nothing is said, never later than now. */
export function past(at: Moment) {
  return optionalInstant(at)
    .transform(when => when ?? at.now)
    .refine(when => when.getTime() <= at.now.getTime() + CLOCK_SKEW_MS, {
      params: { rule: 'not-happened-yet' },
    })
}

/** The span in which something may lie, where its time is not known well. */
const span = (at: Moment) => ({ earliest: optionalInstant(at), latest: optionalInstant(at) })

export const occurred = (at: Moment) => ({ at: past(at), ...span(at) })

const happened = (at: Moment) => ({
  since: past(at),
  ...span(at),
  /** The number of the fact that this one corrects. */
  supersedes: optionalId,
})

const where = { enclosureId: optionalId, placeNo: optionalPlace, overrideReason: override }

/** It came to a centre; without an enclosure it is in the building and nowhere yet. */
export const arrivedInput = (at: Moment) => z.object({ ...happened(at), centreId: idInput, ...where })

/** It is somewhere else now: in an enclosure, in a centre, with a practice or a driver, or with its finder again. */
export const movedInput = (at: Moment) =>
  z
    .object({
      ...happened(at),
      to: z.enum(['centre', 'practice', 'driver', 'finder']).default('centre'),
      centreId: optionalId,
      practiceId: optionalId,
      driverId: optionalId,
      ...where,
    })
    .refine(
      fact =>
        fact.to === 'finder' ||
        (fact.to === 'centre' && (fact.centreId ?? fact.enclosureId) !== undefined) ||
        (fact.to === 'practice' && fact.practiceId !== undefined) ||
        (fact.to === 'driver' && fact.driverId !== undefined),
      { path: ['to'], params: { rule: 'keeping_names_one_keeper' } },
    )

/** A stage was reached, or the animal is ready to leave it. */
export const stageInput = (at: Moment) => z.object({ ...occurred(at), stageNo: idInput })

const grams = z.coerce.number().positive().max(GRAMS_MAX)

export const checkInput = (at: Moment) =>
  z.object({
    ...occurred(at),
    /** What was found, of the kind of check; else whether it was passed. */
    found: z.union([blank, z.enum(FOUND)]).optional(),
    passed: yes.optional(),
    signedBy: z.string().trim().max(SIGNED_BY_MAX).default(''),
    /** How much longer the stage takes where it was not passed. */
    moreDays: z.union([blank, z.coerce.number().int().min(1).max(LENGTH_MAX_DAYS)]).optional(),
    result: z.string().trim().max(REASON_MAX).default(''),
    /** Of an animal that stood on the scale for this check. */
    grams: z.union([blank, grams]).optional(),
  })

export const weightInput = (at: Moment) => z.object({ ...occurred(at), grams })

export const weightAnswerInput = z.object({ weightId: idInput, isSure: yes })

export const noteInput = (at: Moment) =>
  z.object({ ...occurred(at), words: z.string().trim().min(1).max(WORDS_MAX) })

/** Two questions: is it alive, where is it now. */
export const outcomeInput = (at: Moment) =>
  z.object({
    ...happened(at),
    alive: z.enum(ALIVE_ANSWERS),
    whereNow: z.enum([...WHERE_NOW.alive, ...WHERE_NOW.dead, ...WHERE_NOW['not known']]),
  })

export const identifiedInput = z.object({
  species: z.string().min(1),
  age: z.enum(AGES),
  supersedes: optionalId,
})

/** New expectations for stages: a length, a whole estimate, another housing or centre; everything else stays. */
export const revisionInput = z.object({
  because: reason.min(1),
  stages: z
    .array(
      z.object({
        stageNo: idInput,
        medianDays: z.union([blank, z.coerce.number().positive()]).optional(),
        p90Days: z.union([blank, z.coerce.number().positive()]).optional(),
        estimate: stageEstimate.optional(),
        centreId: optionalId,
      }),
    )
    .min(1),
})
export type Revision = z.infer<typeof revisionInput>

export const holdInput = (at: Moment) =>
  z.object({
    enclosureId: idInput,
    placeNo: optionalPlace,
    startsAt: optionalInstant(at).transform(when => when ?? at.now),
    endsAt: optionalInstant(at),
    expectedAt: optionalInstant(at),
    /** When the promise runs out; the network's policy where nothing is said. */
    expiresAt: optionalInstant(at),
    needsIsolation: yes.default(false),
    overrideReason: override,
  })

export const departureInput = (at: Moment) => z.object({ leavesAt: optionalInstant(at) })

export const closingInput = (at: Moment) =>
  z
    .object({
      startsAt: optionalInstant(at).transform(when => when ?? at.now),
      endsAt: optionalInstant(at),
      reason: reason.min(1),
    })
    .refine(one => one.endsAt === undefined || one.endsAt.getTime() > one.startsAt.getTime(), {
      path: ['endsAt'],
      params: { rule: 'closure_ends_after_it_starts' },
    })

/** A state of a site that begins now or later. */
export const stopInput = (at: Moment) =>
  z
    .object({
      centreId: idInput,
      siteState: z.enum(SITE_STATES),
      coversClass: z.enum(['', 'bird', 'mammal']).transform(typed => (typed === '' ? null : typed)),
      startsAt: optionalInstant(at).transform(when => when ?? at.now),
      endsAt: optionalInstant(at),
      reason: reason.min(1),
    })
    .refine(stop => stop.startsAt.getTime() >= at.now.getTime() - CLOCK_SKEW_MS, {
      path: ['startsAt'],
      params: { rule: 'stop-begins-in-the-past' },
    })
    .refine(stop => stop.endsAt === undefined || stop.endsAt.getTime() > stop.startsAt.getTime(), {
      path: ['endsAt'],
      params: { rule: 'movement_stop_ends_after_it_starts' },
    })

export const siteStateInput = (at: Moment) =>
  z.object({
    state: z.enum(['open', ...SITE_STATES]),
    covers: z.enum(['bird', 'mammal', 'all']).default('all'),
    endsAt: optionalInstant(at),
    reason: reason.min(1),
  })
