/**
 * Releases: planned, done, called off; what the fit wait for.
 * Promise: a plan is refused with everything that stands against it, animal by animal; a release that happened is saved
 * with what stood against it. Planning books the departures, so that places can be promised from then on. All of a group
 * go in one transaction. Nothing here suggests a release.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { systemActor } from '#lib/authz/actor.ts'
import { demand, may } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { writeDeparture } from '#lib/db/hold.ts'
import { getReach, recordFacts } from '#lib/db/keeping.ts'
import {
  callOffRelease,
  countLeftWithoutPlan,
  createRelease,
  type FitRow,
  finishRelease,
  listAnimalsOfRelease,
  listFit,
  listReleases,
  lockRelease,
  type ReleaseRow,
  recordAgainst,
  recordWaits,
} from '#lib/db/release.ts'
import { lockCasualty } from '#lib/db/stage.ts'
import { type DayNumber, dayOfInstant } from '#lib/domain/day.ts'
import { parse, parseAt } from '#lib/domain/parse.ts'
import {
  type Bar,
  isSensitive,
  releaseDoneInput,
  releaseOffInput,
  releasePlanInput,
  type Site,
  siteSeen,
  type WaitsFor,
  waitInput,
} from '#lib/domain/release.ts'
import { speciesOf } from '#lib/domain/trade.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { barredWords, barSentence } from '#lib/words/release.ts'
import { demandOn, momentOf, type Recorded, record } from './about-casualty.ts'
import { readTrade } from './network.ts'
import { type BarsOf, barsOf, readBars } from './release-bars.ts'

const DONE_DAYS = 30
const MS_PER_DAY = 86_400_000

export type FitAnimal = FitRow & {
  readonly fitOn: DayNumber
  readonly days: number
  readonly bars: readonly Bar[]
}
export type ShownRelease = Omit<ReleaseRow, 'site' | 'latitude' | 'longitude'> & {
  readonly place: Site & { readonly isCoarse: boolean }
  /** While it is planned: who may not go on its day, as it is known now. */
  readonly barred: readonly BarsOf[]
}
export type Releases = {
  readonly today: DayNumber
  readonly zone: string
  readonly fit: readonly FitAnimal[]
  /** Said ready to leave the last stage, with a gate of the plan not passed: not fit yet. */
  readonly atGate: readonly FitAnimal[]
  /** Place-days used by waiting, of all and by what they wait for. */
  readonly placeDays: number
  readonly placeDaysFor: ReadonlyMap<WaitsFor, number>
  readonly planned: readonly ShownRelease[]
  readonly done: readonly ShownRelease[]
  /** Animals that left for the wild in the same days, without a release that tells its place. */
  readonly leftWithoutPlan: number
  readonly canPlan: boolean
}

/** Who is fit and still here, what is planned, what was done. */
export async function readReleases(actor: Actor, now: Date): Promise<Releases> {
  const grant = demand(actor, 'casualty.read')
  const [{ zone }, trade] = await Promise.all([momentOf(now), readTrade()])
  const today = dayOfInstant(now, zone)
  const since = new Date(now.getTime() - DONE_DAYS * MS_PER_DAY)
  const [rows, releases, leftWithoutPlan] = await Promise.all([
    listFit(grant),
    listReleases(grant, since),
    countLeftWithoutPlan(grant, since),
  ])
  const barsOn = await readBars(grant, [
    ...rows.map(({ id }) => id),
    ...releases.flatMap(({ state, animals }) => (state === 'planned' ? animals.map(({ id }) => id) : [])),
  ])
  const ready = rows.map(row => {
    const fitOn = dayOfInstant(row.fitAt, zone)
    return { ...row, fitOn, days: Math.max(0, today - fitOn), bars: barsOn(row.id, today).bars }
  })
  const isAtGate = ({ bars }: FitAnimal) => bars.some(({ rule }) => rule === 'gate')
  const fit = ready.filter(one => !isAtGate(one))
  const placeDaysFor = new Map<WaitsFor, number>()
  for (const { waitsFor, days } of fit) {
    for (const one of waitsFor) placeDaysFor.set(one, (placeDaysFor.get(one) ?? 0) + days)
  }
  // Whoever takes animals out needs the place; a manager, an administrator or a practice does not.
  const mayKnow = actor.roles.some(({ role }) => role === 'coordinator' || role === 'carer')
  const shown = releases.map(({ site: words, latitude, longitude, ...release }): ShownRelease => {
    const isKept = release.animals.some(one => isSensitive(speciesOf(trade, one.species).licence_keys))
    const at = latitude === null || longitude === null ? null : { latitude, longitude }
    // What was open may have come since, or the season be another on its day.
    const onDay = dayOfInstant(release.at, zone)
    const all = release.state === 'planned' ? release.animals.map(({ id }) => barsOn(id, onDay)) : []
    const barred = all.filter(({ bars }) => bars.length > 0)
    return { ...release, barred, place: siteSeen({ words, at }, mayKnow || !isKept) }
  })
  return {
    today,
    zone,
    fit,
    atGate: ready.filter(isAtGate),
    placeDays: fit.reduce((sum, { days }) => sum + days, 0),
    placeDaysFor,
    planned: shown.filter(({ state }) => state === 'planned'),
    done: shown.filter(({ state }) => state === 'done'),
    leftWithoutPlan,
    canPlan: may(actor, 'outcome.record'),
  }
}

/** Plans the release of one animal or a group. Failure 'rule' names everything that stands against it. */
export async function planRelease(actor: Actor, input: unknown, now: Date): Promise<number> {
  const moment = await momentOf(now)
  const { animals, latitude, longitude, ...said } = parseAt(releasePlanInput, moment, input)
  const ids = [...new Set(animals)].sort((a, b) => a - b)
  const grants = await Promise.all(
    ids.map(casualtyId => demandOn(actor, { permission: 'outcome.record', casualtyId })),
  )
  const day = dayOfInstant(said.at, moment.zone)
  const found = await Promise.all(ids.map(async id => barsOf(await readerOf(actor, id), id, day)))
  const barred = found.filter(({ bars }) => bars.length > 0)
  if (barred.length > 0) {
    throw new Failure('rule', {
      rule: 'release-barred',
      field: 'animals[]',
      data: { say: barredWords(barred), barred: barred.map(({ reference }) => reference) },
    })
  }
  const [grant] = grants
  if (grant === undefined) throw new Failure('invalid', { rule: 'release-of-nobody', field: 'animals[]' })
  const about = {
    now,
    action: 'release planned',
    subject: 'release',
    subjectId: (releaseId: number) => releaseId,
    columns: ['state', 'at'],
  } as const
  return inEntry(grant, about, async entry => {
    for (const id of ids) await lockCasualty(entry, id)
    const place = { latitude: latitude ?? null, longitude: longitude ?? null }
    const releaseId = await createRelease(entry, { ...said, ...place }, ids)
    for (const id of ids) if (said.at.getTime() > now.getTime()) await writeDeparture(entry, id, said.at, now)
    return releaseId
  })
}

/** Who went, with which marks; what stood against it is kept beside the fact. Returns how many went. */
export async function recordRelease(actor: Actor, input: unknown, now: Date): Promise<number> {
  const moment = await momentOf(now)
  const said = parseAt(releaseDoneInput, moment, input)
  const { releaseId, at, releaser } = said
  const ids = await listAnimalsOfRelease(demand(systemActor('whose release'), 'system.run'), releaseId)
  const grants = await Promise.all(
    ids.map(casualtyId => demandOn(actor, { permission: 'outcome.record', casualtyId })),
  )
  const gone = said.animals.filter(one => one.went === 'yes' && ids.includes(one.casualtyId))
  const [grant] = grants
  if (gone.length === 0 || grant === undefined) {
    throw new Failure('invalid', { rule: 'nobody-went', field: 'animals.0.went' })
  }
  const day = dayOfInstant(at, moment.zone)
  const bars = new Map<number, readonly Bar[]>()
  for (const { casualtyId } of gone) {
    bars.set(casualtyId, (await barsOf(await readerOf(actor, casualtyId), casualtyId, day)).bars)
  }
  const about = {
    now,
    action: 'released',
    subject: 'release',
    subjectId: releaseId,
    columns: ['state', 'ring', 'outcome'],
  } as const
  return inEntry(grant, about, async entry => {
    const planned = await lockRelease(entry, releaseId)
    const went = gone.filter(one => planned.includes(one.casualtyId))
    const facts = went.map(({ casualtyId }) => ({
      casualtyId,
      since: at,
      keeper: 'nobody' as const,
      outcome: 'released' as const,
    }))
    const keepings = await recordFacts(entry, facts, now)
    const rows = went.map(({ casualtyId, ring }, index) => ({
      casualtyId,
      ring,
      keepingId: keepings[index] ?? 0,
    }))
    await finishRelease(entry, releaseId, { at, releaser, gone: rows })
    for (const { casualtyId, keepingId } of rows) {
      await recordAgainst(entry, keepingId, againstOf(bars.get(casualtyId) ?? []))
    }
    for (const id of planned.filter(id => went.every(one => one.casualtyId !== id))) {
      await writeDeparture(entry, id, undefined, now)
    }
    return rows.length
  })
}

/** Nobody goes: the booked departures are taken back. */
export async function callOff(actor: Actor, input: unknown, now: Date): Promise<void> {
  const { releaseId } = parse(releaseOffInput, input)
  const ids = await listAnimalsOfRelease(demand(systemActor('whose release'), 'system.run'), releaseId)
  const grants = await Promise.all(
    ids.map(casualtyId => demandOn(actor, { permission: 'outcome.record', casualtyId })),
  )
  const [grant] = grants
  if (grant === undefined) throw new Failure('not-found')
  const about = {
    now,
    action: 'release called off',
    subject: 'release',
    subjectId: releaseId,
    columns: ['state'],
  } as const
  await inEntry(grant, about, async entry => {
    const planned = await lockRelease(entry, releaseId)
    await callOffRelease(entry, releaseId)
    for (const id of planned) await writeDeparture(entry, id, undefined, now)
  })
}

/** What an animal that is fit waits for. */
export async function recordWaiting(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded> {
  const { waitsFor } = parse(waitInput, input)
  const about = {
    permission: 'casualty.record',
    casualtyId,
    action: 'waits for said',
    columns: ['waits_for'],
  } as const
  return record(actor, about, now, entry => recordWaits(entry, casualtyId, now, waitsFor))
}

/** No rows are read here: bars as they are kept beside a fact. */
function againstOf(bars: readonly Bar[]) {
  return bars.map(bar => ({ rule: bar.rule, what: barSentence(bar) }))
}

async function readerOf(actor: Actor, casualtyId: number) {
  const reach = await getReach(demand(systemActor('whose animal'), 'system.run'), casualtyId)
  return demand(actor, 'casualty.read', reach)
}
