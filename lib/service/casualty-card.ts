/**
 * Parts of an animal's card that follow from the trade's knowledge and the network of this moment: licence clocks,
 * cautions, and the places of a centre. Internal to lib/service: no rows of its own.
 */
import { type Grant, reaches } from '#lib/authz/demand.ts'
import type { InCare } from '#lib/db/batch.ts'
import type { CasualtyHead, CasualtyNow } from '#lib/db/casualty.ts'
import type { PlanRow, WeightRow } from '#lib/db/casualty-happened.ts'
import type { LicenceWordRow } from '#lib/db/licence.ts'
import type { getReleaseOf, ReleasedAs } from '#lib/db/release.ts'
import type { VetWordRow } from '#lib/db/vet-word.ts'
import { type Caution, cautionsFor } from '#lib/domain/caution.ts'
import type { DayNumber, PlainDate } from '#lib/domain/day.ts'
import { placesBeside } from '#lib/domain/free-place.ts'
import { type Beside, type Joinable, joinableWith } from '#lib/domain/group.ts'
import type { CareStage } from '#lib/domain/housing.ts'
import type { SpeciesKnowledge } from '#lib/domain/knowledge.ts'
import { appliesIn, type Clock, clocksOf, unauthorisedAt } from '#lib/domain/licence.ts'
import { fitsEnclosure, type Misfit } from '#lib/domain/need.ts'
import { AVIAN_INFLUENZA } from '#lib/domain/notifiable.ts'
import { type PlaceChoice, placeChoices } from '#lib/domain/place-choice.ts'
import { plannedNeed } from '#lib/domain/planned-need.ts'
import { isSensitive, isUnlawful, type Site, siteSeen } from '#lib/domain/release.ts'
import { overwinterOf, type SpeciesSeason } from '#lib/domain/season-gate.ts'
import { licencesOf } from '#lib/domain/trade.ts'
import { unlikelyWeight } from '#lib/domain/weight.ts'
import type { Tonight } from './network.ts'

export type LicenceClock = {
  readonly key: string
  readonly meaning: string
  readonly jurisdiction: string | null
  /** It holds where the network is. */
  readonly applies: boolean
  /** Counted from arrival, each for its kind of holder. */
  readonly clocks: readonly Clock[]
  readonly barsRelease: boolean
  readonly reviewedOn: PlainDate | null
  /** What was done about it, the newest. */
  readonly done: string | null
}

export type LicencesAsked = {
  readonly species: SpeciesKnowledge
  readonly arrivedOn: DayNumber
  readonly keeper: CasualtyNow['keeper']
  readonly words: readonly LicenceWordRow[]
}

/** No rows: the rules that bind a species, with the days on which their clocks run out. */
export function licenceClocks({ trade }: Tonight, asked: LicencesAsked): LicenceClock[] {
  const { species, arrivedOn, keeper, words } = asked
  const holder = keeper === 'centre' || keeper === 'practice' ? keeper : null
  return licencesOf(trade, species)
    .filter(({ key }) => key !== 'none')
    .map(row => {
      const applies = appliesIn(row.jurisdiction, trade.jurisdiction)
      return {
        key: row.key,
        meaning: row.meaning,
        jurisdiction: row.jurisdiction,
        applies,
        clocks: clocksOf(row, arrivedOn, applies ? holder : null),
        barsRelease: isUnlawful(row.key),
        reviewedOn: row.reviewed_on,
        done: words.findLast(one => one.key === row.key)?.words ?? null,
      }
    })
}

/** No rows: the rule under which the centre that has it may not hold it. */
export function unauthorisedHere(
  { trade, today }: Tonight,
  species: SpeciesKnowledge,
  { keeper, centreId }: Pick<CasualtyNow, 'keeper' | 'centreId'>,
): string | undefined {
  if (keeper !== 'centre' || centreId === null) return undefined
  const at = { centreId, day: today, jurisdiction: trade.jurisdiction }
  return unauthorisedAt(licencesOf(trade, species), at)?.meaning
}

/** No rows: what to beware of at the cage, at its end and before it goes. */
export function cautionsOfCard(
  { trade }: Tonight,
  head: CasualtyHead,
  species: SpeciesKnowledge,
): Readonly<Record<'card' | 'outcome' | 'release', readonly Caution[]>> {
  const facts = {
    species,
    conditions: head.findings.flatMap(({ condition }) => trade.conditionBySlug.get(condition) ?? []),
    answers: {},
    dangers: [],
    age: head.age,
    notifiable: head.isDiseaseSuspect
      ? ({ state: 'suspected', disease: AVIAN_INFLUENZA, because: ['said so'] } as const)
      : ({ state: 'screened' } as const),
  }
  const at = (place: 'card' | 'outcome' | 'release') => cautionsFor(facts, place)
  return { card: at('card'), outcome: at('outcome'), release: at('release') }
}

export type ReleaseShown = Omit<ReleaseFound, 'released'> & {
  readonly released:
    | (Pick<ReleasedAs, 'way' | 'releaser' | 'ring'> & {
        readonly place: Site & { readonly isCoarse: boolean }
      })
    | null
}

type ReleaseFound = Awaited<ReturnType<typeof getReleaseOf>>

/** No rows: a release as the reader may know it; the place of a sensitive species only roughly. */
export function releaseShown(
  { released, ...rest }: ReleaseFound,
  species: SpeciesKnowledge,
  mayKnow: boolean,
): ReleaseShown {
  if (released === null) return { ...rest, released }
  const { site: words, latitude, longitude, way, releaser, ring } = released
  const at = latitude === null || longitude === null ? null : { latitude, longitude }
  const place = siteSeen({ words, at }, mayKnow || !isSensitive(species.licence_keys))
  return { ...rest, released: { way, releaser, ring, place } }
}

export type PlacesAt = {
  readonly centreId: number | null
  readonly centre: string | null
  readonly centres: readonly { readonly id: number; readonly name: string }[]
  /** The stage for which the places were judged. */
  readonly stage: CareStage | null
  readonly choices: readonly PlaceChoice[]
}

/** No rows: why the enclosure it is in does not suit the stage it is in; what is short of a place has its own flag. */
export function misfitsHere(
  { state, trade }: Tonight,
  casualtyId: number,
  stageNo: number | undefined,
): Misfit[] {
  const resident = state.residents.find(({ id }) => id === casualtyId)
  const enclosure = state.enclosures.find(({ id }) => id === resident?.enclosureId)
  const planned = resident?.stages.find(({ no }) => no === stageNo)
  if (resident === undefined || enclosure === undefined || planned === undefined) return []
  return fitsEnclosure(plannedNeed(resident, planned, trade), enclosure).filter(
    ({ rule }) => rule !== 'not set up for',
  )
}

type Asked = {
  readonly casualtyId: number
  readonly centreId: number | null
  readonly stageNo: number | undefined
  readonly now: Date
}

/** The enclosures of a centre for an animal's stage; none of a centre that the asker may not see into. */
export function placesAt(
  grant: Grant<'placement.read'>,
  { state, trade }: Tonight,
  { casualtyId, centreId, stageNo, now }: Asked,
): PlacesAt {
  const centres = state.centres.map(({ id, name }) => ({ id, name }))
  const centre = centres.find(({ id }) => id === centreId)
  const resident = state.residents.find(({ id }) => id === casualtyId)
  const planned = resident?.stages.find(({ no }) => no === stageNo) ?? resident?.stages[0]
  const isSeen = centre !== undefined && reaches(grant.scope, { centreIds: [centre.id] })
  return {
    centreId: centre?.id ?? null,
    centre: centre?.name ?? null,
    centres,
    stage: planned?.stage ?? null,
    choices:
      isSeen && resident !== undefined && planned !== undefined
        ? placeChoices(state, centre.id, plannedNeed(resident, planned, trade), { at: now, casualtyId })
        : [],
  }
}

export type JoinableHere = Joinable & { readonly enclosure: string | null }

/** No rows: whom it and those beside it may be put together with, as the service that does it would let them. */
export function joinableHere(
  { state }: Tonight,
  batch: readonly InCare[],
  atCentre: readonly Beside[],
  now: Date,
): JoinableHere[] {
  const beside = batch.filter(({ isBeside }) => isBeside)
  return joinableWith(beside, atCentre, other => placesBeside(state, other, now)).map(one => ({
    ...one,
    enclosure: state.enclosures.find(({ id }) => id === one.enclosureId)?.name ?? null,
  }))
}

/** No rows: everything it could be said to be. */
export function speciesChoices({ trade }: Tonight) {
  return trade.species.map(({ slug, common_name, group_slug }) => ({
    slug,
    name: common_name,
    group: trade.groupBySlug.get(group_slug)?.name ?? group_slug,
  }))
}

type Weighed = {
  readonly all: readonly WeightRow[]
  readonly seasons: readonly SpeciesSeason[]
  readonly plan: PlanRow | undefined
  readonly species: SpeciesKnowledge
  readonly age: CasualtyHead['age']
  readonly isOpen: boolean
}

/** No rows: the weights that stand, what is unlikely about the newest, and what the seasons say to it. */
export function weighedOf({ all, seasons, plan, species, age, isOpen }: Weighed, today: DayNumber) {
  const weights = all.filter(one => !one.isTakenBack)
  const newest = weights.at(-1)
  const usual = { lowG: species.mass_g_low, highG: species.mass_g_high, age }
  const stages = plan?.stages.map(({ stage }) => stage) ?? []
  return {
    lastWeight: newest,
    weights,
    doubt: newest === undefined || newest.isSure ? undefined : unlikelyWeight(newest, weights.at(-2), usual),
    seasons,
    overwinter: isOpen ? overwinterOf(seasons, { grams: newest?.grams, stages }, today) : undefined,
  }
}

/** No rows: what a vet said last of the stage it is in; nothing before that began, or once it is ready to leave it. */
export function vetWordNow(
  stageNow:
    | {
        readonly stage: { readonly no: number }
        readonly beganOn: DayNumber | null
        readonly readyAt: Date | null
      }
    | undefined,
  words: readonly VetWordRow[],
): VetWordRow | undefined {
  if (stageNow === undefined || stageNow.beganOn === null || stageNow.readyAt !== null) return undefined
  return words.findLast(({ stageNo, isTakenBack }) => stageNo === stageNow.stage.no && !isTakenBack)
}
