/**
 * Operations recorded by hand: when, on which side, what was left in.
 * Promise: whoever may revise may record it; what hangs on the day of the operation is counted from it; one that never
 * was is taken back by a new line. Surgery itself is a vet's act.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { countFromSurgery } from '#lib/db/check.ts'
import { createPlanVersion, listPlannedStages } from '#lib/db/stage.ts'
import { createSurgery, voidSurgery } from '#lib/db/surgery.ts'
import { dayOfDate, dayOfInstant } from '#lib/domain/day.ts'
import { parse, parseAt } from '#lib/domain/parse.ts'
import { surgeryBackInput, surgeryInput } from '#lib/domain/surgery.ts'
import { operatedBecause } from '#lib/words/check.ts'
import { momentOf, type Recorded, record } from './about-casualty.ts'
import { countChecksAnew } from './check-within.ts'

/** An operation was done. Returns its number. */
export async function recordSurgery(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const moment = await momentOf(now)
  const said = parseAt(surgeryInput, moment, input)
  const about = {
    permission: 'casualty.revise',
    casualtyId,
    action: 'operation recorded',
    columns: ['at', 'side', 'what'],
    isHeld: true,
  } as const
  return record(actor, about, now, async (entry, grant) => {
    const id = await createSurgery(entry, casualtyId, said)
    const day = dayOfInstant(said.at, moment.zone)
    const bars = await countFromSurgery(entry, casualtyId, day)
    const stages = await listPlannedStages(entry, casualtyId)
    const waits = stages.flatMap(({ no, estimate, beganAt }) => {
      const bar = bars.find(({ stageNo }) => stageNo === no)
      if (bar === undefined || beganAt === null) return []
      const dueOn = dayOfDate(bar.dueOn.toISOString().slice(0, 10))
      const leastDays = dueOn - dayOfInstant(beganAt, moment.zone)
      return leastDays > (estimate.leastDays ?? 0) ? [{ stageNo: no, leastDays }] : []
    })
    if (waits.length > 0) {
      await createPlanVersion(
        entry,
        casualtyId,
        operatedBecause(day),
        waits.map(({ stageNo, leastDays }) => ({
          stageNo,
          estimate: before => ({ ...before, leastDays }),
          keepsSource: true,
        })),
      )
    }
    await countChecksAnew(grant, entry, casualtyId, moment)
    return id
  })
}

/** It was recorded by mistake. */
export async function takeBackSurgery(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded> {
  const { surgeryId } = parse(surgeryBackInput, input)
  const about = {
    permission: 'casualty.revise',
    casualtyId,
    action: 'operation taken back',
    columns: ['is_void'],
    isHeld: true,
  } as const
  return record(actor, about, now, async entry => {
    await voidSurgery(entry, casualtyId, surgeryId)
  })
}
