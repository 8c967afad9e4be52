/**
 * What is said about a stay: ready, next stage, checks, weights, notes, new expectations, what the animal is.
 * Promise: nothing is overwritten; revising keeps the old plan readable; checks move with the stages they hang on;
 * naming the species reruns every rule about its company. Times are instants, weights grams.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { getCheck } from '#lib/db/check.ts'
import {
  createPlanVersion,
  recordIdentified,
  recordStageFact,
  recordWords,
  voidStageFacts,
} from '#lib/db/stage.ts'
import { answerWeight, weighed } from '#lib/db/weight.ts'
import { checkFound } from '#lib/domain/check-result.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import type { StageEstimate } from '#lib/domain/estimate.ts'
import { stageEstimate } from '#lib/domain/estimate.ts'
import { mustBeAlone } from '#lib/domain/need.ts'
import { parse, parseAt } from '#lib/domain/parse.ts'
import {
  checkInput,
  identifiedInput,
  noteInput,
  type Revision,
  revisionInput,
  stageInput,
  weightAnswerInput,
  weightInput,
} from '#lib/domain/record.ts'
import { monthOf } from '#lib/domain/season.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { type Along, momentOf, type Recorded, record, recordAtOnce } from './about-casualty.ts'
import { countChecksAnew, recordCheckWithin } from './check-within.ts'
import { readTrade } from './network.ts'

type Said = Promise<Recorded>

/** It is ready to leave its stage, whether or not it has moved. */
export async function recordReady(actor: Actor, casualtyId: number, input: unknown, now: Date): Said {
  return saveStage(actor, casualtyId, 'ready', input, now)
}

/** It went on: the stage began. */
export async function recordStageMoved(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
  along: Along = {},
): Said {
  return saveStage(actor, casualtyId, 'began', input, now, along)
}

async function saveStage(
  actor: Actor,
  casualtyId: number,
  kind: 'began' | 'ready',
  input: unknown,
  now: Date,
  along: Along = {},
): Said {
  const moment = await momentOf(now)
  const { stageNo, ...when } = parseAt(stageInput, moment, input)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: `stage ${kind}`,
    columns: ['at'],
    isWordsOnly: true,
    isHeld: true,
    ...along,
  } as const
  return record(actor, about, now, async (entry, grant) => {
    const isCounted = await recordStageFact(entry, { casualtyId, stageNo, kind, ...when }, now)
    if (kind === 'began' && isCounted) await countChecksAnew(grant, entry, casualtyId, moment)
  })
}

/** Takes back that a stage began, as an entry said: the stage before stands again, with the checks it called off. */
export async function recordStageTakenBack(
  actor: Actor,
  casualtyId: number,
  entryId: number,
  now: Date,
  along: Along = {},
): Said {
  const moment = await momentOf(now)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: 'stage taken back',
    columns: ['is_void'],
    isHeld: true,
    ...along,
  } as const
  return record(actor, about, now, async (entry, grant) => {
    await voidStageFacts(entry, entryId)
    await countChecksAnew(grant, entry, casualtyId, moment)
  })
}

/**
 * A check was done, with the weight where it was weighed for it; one that was not passed moves what comes after it,
 * where somebody says by how much.
 */
export async function recordCheck(
  actor: Actor,
  checkId: number,
  input: unknown,
  now: Date,
  along: Along = {},
): Said {
  const moment = await momentOf(now)
  const said = parseAt(checkInput, moment, input)
  const { check, reach } = await getCheck(demand(systemActor('casualty of a check'), 'system.run'), checkId)
  const result = checkFound(check.slug, said)
  const about = {
    permission: 'casualty.record',
    casualtyId: check.casualtyId,
    reach,
    action: 'check done',
    columns: ['done_at', 'passed', 'found', ...(said.grams === undefined ? [] : ['grams'])],
    isWordsOnly: result.passed,
    isHeld: true,
    ...along,
  } as const
  return record(actor, about, now, (entry, grant) =>
    recordCheckWithin(grant, entry, {
      ...said,
      ...check,
      ...result,
      checkId,
      by: actor.personId,
      moreDays: result.passed ? null : (said.moreDays ?? null),
      grams: said.grams ?? null,
      moment,
    }),
  )
}

/** A weight in grams. */
export async function recordWeight(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
  along: Along = {},
): Said {
  const weight = parseAt(weightInput, await momentOf(now), input)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: 'weighed',
    columns: ['grams'],
    ...along,
  } as const
  return recordAtOnce(actor, about, now, weighed({ casualtyId, ...weight }))
}

/** What somebody says of a weight that was asked about: it is right, or it is taken back. */
export async function recordWeightAnswer(actor: Actor, casualtyId: number, input: unknown, now: Date): Said {
  const { weightId, isSure } = parse(weightAnswerInput, input)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: isSure ? 'weight called right' : 'weight taken back',
    columns: ['is_sure', 'is_void'],
    isWordsOnly: true,
    isHeld: true,
  } as const
  return record(actor, about, now, async entry => {
    await answerWeight(entry, casualtyId, weightId, { isSure })
  })
}

/** Words about the animal. */
export async function recordNote(actor: Actor, casualtyId: number, input: unknown, now: Date): Said {
  const note = parseAt(noteInput, await momentOf(now), input)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: 'note',
    columns: ['words'],
    isWordsOnly: true,
  } as const
  return record(actor, about, now, entry =>
    recordWords(entry, { casualtyId, ...note, writtenBy: actor.personId }),
  )
}

/** New expectations for one or more stages: a new version of the plan, with the reason. Returns its number. */
export async function reviseExpectation(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const { because, stages } = parse(revisionInput, input)
  const moment = await momentOf(now)
  const about = {
    permission: 'casualty.revise',
    casualtyId,
    action: 'expectations revised',
    columns: ['estimate'],
    reason: because,
    isHeld: true,
  } as const
  return record(actor, about, now, async (entry, grant) => {
    const version = await createPlanVersion(
      entry,
      casualtyId,
      because,
      stages.map(change => ({
        stageNo: change.stageNo,
        centreId: change.centreId,
        estimate: (before: StageEstimate) => revised(before, change),
      })),
    )
    await countChecksAnew(grant, entry, casualtyId, moment)
    return version
  })
}

function revised(before: StageEstimate, change: Revision['stages'][number]): StageEstimate {
  // New lengths do away with no check: whoever says nothing of it leaves it as it was.
  if (change.estimate !== undefined) return { ...leastOf(before), ...change.estimate }
  const { medianDays, p90Days } = change
  if (medianDays === undefined && p90Days === undefined) return before
  if (before.ready.kind !== 'length')
    throw new Failure('rule', { rule: 'stage-ends-by-date', field: 'medianDays' })
  const length = before.ready.length
  return parse(stageEstimate, {
    ...before,
    ready: {
      kind: 'length',
      length: { medianDays: medianDays ?? length.medianDays, p90Days: p90Days ?? length.p90Days },
    },
  })
}

function leastOf({ leastDays }: StageEstimate): Pick<StageEstimate, 'leastDays'> {
  return leastDays === undefined ? {} : { leastDays }
}

/** What the animal is, once somebody knows better; whether it must be alone follows from species, age and month. */
export async function identify(actor: Actor, casualtyId: number, input: unknown, now: Date): Said {
  const { species: slug, age, supersedes } = parse(identifiedInput, input)
  const [trade, { zone }] = await Promise.all([readTrade(), momentOf(now)])
  const species = trade.speciesBySlug.get(slug)
  if (species === undefined)
    throw new Failure('invalid', { field: 'species', problems: [{ field: 'species', reason: 'not-listed' }] })
  const isAlone = mustBeAlone({ species, age, month: monthOf(dayOfInstant(now, zone)) })
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: 'identified',
    columns: ['species_slug', 'age'],
  } as const
  return record(actor, about, now, entry =>
    recordIdentified(entry, { casualtyId, species: slug, age, isAlone, supersedes }, now),
  )
}
