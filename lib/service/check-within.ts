/**
 * What a check changes beside itself: when it is due again, what became of implants, and, where it was not passed, the
 * stage it bars, the checks after it and the promises that hang on its end. Internal to lib/service, inside an entry.
 */
import type { Grant } from '#lib/authz/demand.ts'
import {
  type CheckAsked,
  delayPromises,
  holdChecksUntil,
  recordCheckDone,
  takeBackReady,
} from '#lib/db/check.ts'
import type { EntryTx } from '#lib/db/entry.ts'
import { countChecksFrom, createPlanVersion, listPlannedStages } from '#lib/db/stage.ts'
import { settleImplants } from '#lib/db/surgery.ts'
import type { CheckFound } from '#lib/domain/check-result.ts'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { LENGTH_MAX_DAYS, type StageEstimate } from '#lib/domain/estimate.ts'
import type { Moment } from '#lib/domain/parse.ts'
import type { Occurred } from '#lib/domain/precision.ts'
import { implantsSettledBy } from '#lib/domain/surgery.ts'
import { expectedStarts } from '#lib/forecast/expected-starts.ts'
import { longerBecause } from '#lib/words/check.ts'

type Within = Grant<'casualty.record' | 'casualty.revise'>

export type CheckWithin = CheckAsked &
  CheckFound & {
    readonly checkId: number
    readonly by: number | null
    readonly moreDays: number | null
    readonly result: string
    readonly grams: number | null
    readonly moment: Moment
  } & Occurred

/** Writes the check with all that follows from it; the entry holds the casualty. */
export async function recordCheckWithin(grant: Within, entry: EntryTx, check: CheckWithin): Promise<void> {
  const { casualtyId, at, passed, found, signedBy, moreDays, moment } = check
  const doneOn = dayOfInstant(at, moment.zone)
  const days = moreDays ?? check.intervalDays
  const again = isDueAgain(check) ? { dueOn: days === null ? null : doneOn + days } : undefined
  await recordCheckDone(entry, check, again)
  const settled = implantsSettledBy(check.slug, found)
  if (settled !== undefined) await settleImplants(entry, casualtyId, { ...settled, at, signedBy })
  if (passed || check.requiredFor === null) return
  await takeBackReady(entry, casualtyId, check.stageNo, at)
  if (moreDays !== null) await lengthen(grant, entry, { ...check, moreDays }, doneOn)
}

/** What bars the way is looked at until it is passed; what repeats, until its finding ends the matter. */
function isDueAgain({ passed, isFinal, requiredFor, intervalDays }: CheckWithin): boolean {
  if (!passed) return requiredFor !== null || intervalDays !== null
  return intervalDays !== null && !isFinal
}

/** The stage ends so much later than was said before: a new version of the plan, and what hangs on it moves. */
async function lengthen(
  grant: Within,
  entry: EntryTx,
  check: CheckWithin & { readonly moreDays: number },
  doneOn: DayNumber,
): Promise<void> {
  const { casualtyId, stageNo, moreDays, moment } = check
  const until = doneOn + moreDays
  const stages = await listPlannedStages(entry, casualtyId)
  const stage = stages.find(({ no }) => no === stageNo)
  if (stage !== undefined) {
    const beganOn = stage.beganAt === null ? doneOn : dayOfInstant(stage.beganAt, moment.zone)
    await createPlanVersion(entry, casualtyId, longerBecause(check), [
      { stageNo, estimate: before => longerBy(before, moreDays, until - beganOn) },
    ])
  }
  await holdChecksUntil(entry, casualtyId, stageNo, until)
  await countChecksAnew(grant, entry, casualtyId, moment)
  await delayPromises(entry, check, moreDays, moment.now)
}

function longerBy(before: StageEstimate, days: number, leastDays: number): StageEstimate {
  const { ready } = before
  const least = Math.min(LENGTH_MAX_DAYS, Math.max(before.leastDays ?? 0, leastDays, 0))
  if (ready.kind === 'date gate')
    return { ...before, ready: { ...ready, minDays: Math.max(ready.minDays, least) } }
  const medianDays = Math.min(LENGTH_MAX_DAYS - 1, ready.length.medianDays + days)
  const p90Days = Math.min(LENGTH_MAX_DAYS, ready.length.p90Days + days)
  return { ...before, ready: { kind: 'length', length: { medianDays, p90Days } }, leastDays: least }
}

/** Checks hang on the day their stage began, or is expected to begin as the stages before it stand now. */
export async function countChecksAnew(
  _grant: Within,
  entry: EntryTx,
  casualtyId: number,
  { zone, now }: Moment,
): Promise<void> {
  const stages = (await listPlannedStages(entry, casualtyId)).map(({ beganAt, ...stage }) => ({
    ...stage,
    beganOn: beganAt === null ? null : dayOfInstant(beganAt, zone),
  }))
  await countChecksFrom(entry, casualtyId, expectedStarts(stages, dayOfInstant(now, zone)))
}
