/** What a centre does day by day: rounds, checks that are due, weighings. And the call that waits at the end. */
import { type DayNumber, dateOfDay } from '#lib/domain/day.ts'
import { openCall, saveSheet, setAside } from '#lib/service/call.ts'
import { countCentre } from '#lib/service/closure.ts'
import { recordCheck, recordWeight } from '#lib/service/record-stay.ts'
import type { Weighing } from '../history/rows.ts'
import { WAITING_SHEET } from '../scenario/calls.ts'
import type { Round } from '../scenario/today.ts'
import { COORDINATOR, carerAt } from './actors.ts'
import { runInLanes } from './lanes.ts'
import { animalKey, centreKey, type Live, type Step } from './live.ts'
import type { Scales } from './scales.ts'

const WEIGHING = 'weigh'

/** Animals in care whose open checks of the stage they are in are due by a day, with the centre they are at. */
const DUE = `
  select d.id, d.casualty_id, d.check_slug, w.centre_id
    from check_due d
    join whereabouts w on w.casualty_id = d.casualty_id and w.until is null and w.keeper = 'centre'
   where d.done_at is null and d.called_off_at is null and d.due_on <= $1
     and d.stage_no = (select s.stage_no from stage_fact s
                        where s.casualty_id = d.casualty_id and s.kind = 'began' order by s.at desc, s.id desc limit 1)
   order by d.id`

type Due = {
  readonly id: number
  readonly casualty_id: number
  readonly check_slug: string
  readonly centre_id: number
}

/** At eleven every check that is due by that day is done; one that is a weighing, with the weight. */
export function checkStep(live: Live, scales: Scales, day: DayNumber): Step {
  return {
    at: Date.parse(`${dateOfDay(day)}T11:00:00Z`),
    run: async now => {
      const { rows } = await live.client.query<Due>(DUE, [dateOfDay(day)])
      const checks = rows.map(({ id, casualty_id, check_slug, centre_id }): Step => {
        const animal = check_slug === WEIGHING ? live.generated(casualty_id) : undefined
        const grams = animal && scales.weigh(animal, now.getTime())
        const run = async () => {
          await recordCheck(carerAt(centre_id), id, { at: now, passed: true, grams }, now)
          live.count('checks')
        }
        return { at: now.getTime(), run, touches: [`animal checked ${casualty_id}`] }
      })
      await runInLanes(checks)
    },
  }
}

/** A weighing that no check asked for; who was on the scales for one stays off them. */
export function weighingStep(
  live: Live,
  scales: Scales,
  { casualty, at }: Weighing,
  enteredAt: number,
): Step {
  return {
    at: enteredAt,
    touches: [animalKey(casualty)],
    run: async now => {
      if (scales.wasOnLately(casualty, at)) return
      const grams = scales.weigh(casualty, at)
      await recordWeight(live.writerOf(casualty), live.idOf(casualty), { at: new Date(at), grams }, now)
      live.count('weights')
    },
  }
}

export function roundStep(live: Live, { centreId, at }: Round): Step {
  return {
    at,
    touches: [centreKey(centreId)],
    run: async now => {
      await countCentre(carerAt(centreId), centreId, now)
      live.count('centres counted')
    },
  }
}

/** The call that waits: opened, typed, put aside. */
export function waitingStep(live: Live, at: number): Step {
  return {
    at,
    run: async now => {
      const id = await openCall(COORDINATOR, now)
      const place = live.trade.places.find(one => one.name === WAITING_SHEET.whereTyped)
      const sheet = { ...WAITING_SHEET, place: String(place?.id ?? '') }
      // The words might name more than was ticked; what is ticked after they were typed stands.
      await saveSheet(COORDINATOR, id, undefined, sheet, now)
      await saveSheet(COORDINATOR, id, undefined, sheet, now)
      await setAside(COORDINATOR, id, now)
      live.count('calls taken')
    },
  }
}
