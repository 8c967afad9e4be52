/**
 * Seasons of species in setup: when a species may be released, and under which weight it is kept over winter.
 * Promise: a season whose days or weight were changed is ours, unless another source is named; one that is switched off
 * binds nobody and is kept.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  getSeasonRow,
  insertSeason,
  listSeasonRows,
  listSpeciesChoices,
  type SeasonKey,
  type SeasonRow,
  updateSeason,
} from '#lib/db/setup/season.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { sourcedMark } from '#lib/domain/review.ts'
import { newSeasonForm, type SeasonTyped, seasonForm } from '#lib/domain/season-form.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { Failure } from '#lib/kernel/failure.ts'

const COLUMNS = ['opens', 'closes', 'grams', 'mark', 'note']

export async function listSeasons(actor: Actor): Promise<SeasonRow[]> {
  return listSeasonRows(demand(actor, 'setup.read'))
}

export async function getSeason(actor: Actor, at: SeasonKey): Promise<SeasonRow> {
  return getSeasonRow(demand(actor, 'setup.read'), at)
}

/** The form that adds one is for whoever may: the species to choose from. */
export async function newSeason(actor: Actor): Promise<Awaited<ReturnType<typeof listSpeciesChoices>>> {
  return listSpeciesChoices(demand(actor, 'setup.seasons'))
}

export async function addSeason(actor: Actor, input: unknown, now: Date): Promise<SeasonKey> {
  const grant = demand(actor, 'setup.seasons')
  const { species, kind, ...season } = parse(newSeasonForm, input)
  refuseWeight(kind, season)
  const at = { species, kind }
  await inEntry(grant, aboutSeason(at, 'added', now, COLUMNS), entry => insertSeason(entry, at, season))
  return at
}

export async function changeSeason(actor: Actor, at: SeasonKey, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.seasons')
  const { version } = parse(versionForm, input)
  const typed = parse(seasonForm, input)
  refuseWeight(at.kind, typed)
  const before = await getSeasonRow(demand(actor, 'setup.read'), at)
  const said = ({ opens, closes, grams }: SeasonTyped) => [opens, closes, grams]
  const mark = sourcedMark(
    { said: said(before), mark: before.mark },
    { said: said(typed), mark: typed.mark },
    OURS,
  )
  await inEntry(grant, aboutSeason(at, 'changed', now, COLUMNS), entry =>
    updateSeason(entry, { ...at, version }, { ...typed, mark: mark ?? OURS }),
  )
}

export async function switchSeason(actor: Actor, at: SeasonKey, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.seasons')
  const { version, isActive } = parse(switchForm, input)
  const action = isActive ? 'switched on' : 'switched off'
  await inEntry(grant, aboutSeason(at, action, now, ['is_active']), entry =>
    updateSeason(entry, { ...at, version }, { isActive }),
  )
}

function aboutSeason({ species, kind }: SeasonKey, action: string, now: Date, columns: readonly string[]) {
  return { now, action, subject: 'season', subjectId: `${species}.${kind}`, columns }
}

/** The table says the same; here the field is named before anything is written. */
function refuseWeight(kind: SeasonKey['kind'], { grams }: SeasonTyped): void {
  if ((kind === 'hibernation') === (grams !== null)) return
  const rule = 'species_season_hibernation_has_a_weight'
  throw new Failure('invalid', { field: 'grams', rule, problems: [{ field: 'grams', reason: rule }] })
}
