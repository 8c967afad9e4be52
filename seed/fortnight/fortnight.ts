/**
 * The last fortnight, told to the services by the people of the scenario in the order in which they wrote it down.
 * Promise: the same day and clock give the same facts; in which order those of one hour are numbered is open, since
 * they are told side by side. The newest calls are answered with the options of their hour.
 */
import { dayOfInstant } from '#lib/domain/day.ts'
import { addPicture } from '#lib/service/attachment.ts'
import { closeEnclosure, setSiteState } from '#lib/service/closure.ts'
import { recordNote } from '#lib/service/record-stay.ts'
import type { Moment } from '../history/moment.ts'
import type { Weighing } from '../history/rows.ts'
import type { Casualty } from '../history/types.ts'
import { CALL_TAKES_MINUTES, type Told, WAITING_MINUTES } from '../scenario/calls.ts'
import { drawRadiograph, SHOWN } from '../scenario/radiograph.ts'
import { NOTES } from '../scenario/story.ts'
import { type Closing, roundsSince, type Stop } from '../scenario/today.ts'
import { COORDINATOR, MANAGER } from './actors.ts'
import { callSteps, comeToTheDoor } from './coming.ts'
import { runInLanes } from './lanes.ts'
import { animalKey, CHANCE_KEY, centreKey, type Live, type Step } from './live.ts'
import { checkStep, roundStep, waitingStep, weighingStep } from './routine.ts'
import { Scales } from './scales.ts'
import { tellMoment } from './stay.ts'

const MS_PER_MINUTE = 60_000

export type Fortnight = {
  readonly since: number
  readonly now: Date
  readonly zone: string
  readonly moments: readonly Moment[]
  readonly casualties: readonly Casualty[]
  /** Calls whose option is taken. */
  readonly taken: readonly Told[]
  /** Calls that are there already, answered by word: their numbers by arrival. */
  readonly callOf: ReadonlyMap<number, number>
  /** Those before the fortnight too: what an animal weighed last. */
  readonly weighings: readonly Weighing[]
  readonly closing: Closing
  readonly stop: Stop
}

/** Tells all of it. */
export async function tellFortnight(live: Live, fortnight: Fortnight): Promise<void> {
  await runInLanes(listSteps(live, fortnight).sort((a, b) => a.at - b.at))
}

function listSteps(live: Live, fortnight: Fortnight): Step[] {
  const { since, now, zone, weighings } = fortnight
  const [first, today] = [dayOfInstant(new Date(since), zone), dayOfInstant(now, zone)]
  const scales = new Scales(weighings)
  const days = Array.from({ length: today - first }, (_, nth) => first + nth)
  return [
    ...setting(fortnight),
    ...roundsSince(since, now, zone).map(round => roundStep(live, round)),
    ...momentSteps(live, fortnight),
    ...days.map(day => checkStep(live, scales, day)),
    ...weighings
      .filter(one => one.at >= since)
      .map(one =>
        weighingStep(
          live,
          scales,
          one,
          Math.min(now.getTime(), Math.max(one.at, enteredWith(one, fortnight))),
        ),
      ),
    ...noteSteps(live, fortnight),
    ...pictureSteps(live, fortnight),
    waitingStep(live, now.getTime() - WAITING_MINUTES * MS_PER_MINUTE),
  ]
}

/** A weight is not written down before its animal is. */
function enteredWith({ casualty }: Weighing, { moments }: Fortnight): number {
  return moments.find(moment => moment.arrived.includes(casualty))?.at ?? 0
}

function setting({ closing, stop }: Fortnight): Step[] {
  return [
    {
      at: closing.at,
      run: async now => {
        const { enclosureId, reason, endsAt } = closing
        await closeEnclosure(MANAGER, enclosureId, { reason, endsAt: new Date(endsAt) }, now)
      },
    },
    {
      at: stop.since,
      run: async now => {
        const { state, covers, reason } = stop
        await setSiteState(COORDINATOR, stop.centreId, { state, covers, reason }, now)
      },
    },
  ]
}

function momentSteps(live: Live, { since, moments, taken, callOf }: Fortnight): Step[] {
  const toldOf = new Map(taken.map(told => [told.arrivalId, told]))
  const sentOn = taken.filter(told => told.arrivalId === null).flatMap(told => callSteps(live, told, []))
  return [
    ...sentOn,
    ...moments.flatMap((moment): Step[] => {
      const run = (now: Date) => tellMoment(live, moment, now)
      const tell: Step = { at: moment.at, run, touches: touchedBy(moment) }
      const [first] = moment.arrived
      if (first === undefined) return [tell]
      const told = toldOf.get(first.arrival.id)
      // The place that was kept for it may be at another centre than the one it came to.
      if (told !== undefined) return [...callSteps(live, told, moment.arrived), { at: moment.at, run }]
      const callId = callOf.get(first.arrival.id) ?? null
      return [comingStep(live, moment, callId, since), tell]
    }),
  ]
}

/** After a call they are expected from its end on; at the door nobody knew of them. */
function comingStep(live: Live, moment: Moment, callId: number | null, since: number): Step {
  const found = moment.arrived[0]?.changes[0]?.at ?? moment.at
  const answered = Math.max(since, found + 2 * CALL_TAKES_MINUTES * MS_PER_MINUTE)
  return {
    at: callId === null ? moment.at : Math.min(answered, moment.at),
    run: now => comeToTheDoor(live, moment, callId, now),
    touches: [CHANCE_KEY, ...moment.arrived.map(animalKey)],
  }
}

/** The animals of an entry and the centres where they were, are and are driven to: what is told of one settles it. */
function touchedBy({ facts, marks, arrived, centreId }: Moment): string[] {
  const animals = [...facts, ...marks].map(({ casualty }) => casualty)
  const centres = facts.flatMap(({ casualty: { changes }, change }) => {
    const nth = changes.indexOf(change)
    return changes.slice(Math.max(0, nth - 1), nth + 2).flatMap(one => one.centreId ?? [])
  })
  return [
    ...new Set([...animals, ...arrived].map(animalKey)),
    ...(facts.length === 0 ? [] : [...new Set([centreId, ...centres])].map(centreKey)),
  ]
}

function noteSteps(live: Live, { casualties }: Fortnight): Step[] {
  return casualties
    .filter(one => one.isStory === true)
    .flatMap(casualty => {
      const words = NOTES[casualty.findings[0]?.condition ?? '']
      const began = casualty.marks.findLast(mark => mark.kind === 'began')?.at
      if (words === undefined || began === undefined) return []
      const run = async (now: Date) => {
        await recordNote(live.writerOf(casualty), live.idOf(casualty), { words }, now)
        live.count('notes')
      }
      return [{ at: began + 45 * MS_PER_MINUTE, run }]
    })
}

function pictureSteps(live: Live, { casualties }: Fortnight): Step[] {
  return casualties
    .filter(one => one.isStory === true)
    .flatMap(casualty => {
      const condition = casualty.findings[0]?.condition ?? ''
      const words = SHOWN[condition]
      const began = casualty.marks.findLast(mark => mark.kind === 'began')?.at
      if (words === undefined || began === undefined) return []
      const run = async (at: Date) => {
        const picture = await drawRadiograph(condition)
        await addPicture(
          live.writerOf(casualty),
          live.idOf(casualty),
          { kind: 'radiograph', words, picture },
          at,
        )
        live.count('pictures')
      }
      return [{ at: began + 50 * MS_PER_MINUTE, run }]
    })
}
