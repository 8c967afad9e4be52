/**
 * The year's usual arrivals, by centre and group.
 * Promise: figures that were changed are ours, unless whoever changed them names another source. A line is never
 * deleted: nought animals a year says that none are expected.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  type ArrivalsDetail,
  type ArrivalsKey,
  getArrivals as getRow,
  insertArrivals,
  listArrivals as listRows,
  updateArrivals,
} from '#lib/db/setup/arrivals.ts'
import { type GroupChoice, listCentreChoices, listGroupChoices, type Named } from '#lib/db/setup/choice.ts'
import { yearArrivalsForm } from '#lib/domain/arrivals.ts'
import { OURS } from '#lib/domain/care-plan-form.ts'
import { parse } from '#lib/domain/parse.ts'
import { versionForm } from '#lib/domain/setup-form.ts'

const COLUMNS = ['animals_per_year', 'month_shares', 'event_sizes', 'mark']
const figuresForm = yearArrivalsForm.omit({ centreId: true, group: true })

export async function listArrivals(actor: Actor): Promise<ArrivalsDetail[]> {
  return listRows(demand(actor, 'setup.read'))
}

export async function getArrivals(actor: Actor, key: ArrivalsKey): Promise<ArrivalsDetail> {
  return getRow(demand(actor, 'setup.read'), key)
}

export type ArrivalsChoices = {
  readonly centres: readonly Named[]
  readonly groups: readonly GroupChoice[]
}

export async function newArrivalsForm(actor: Actor): Promise<ArrivalsChoices> {
  const grant = demand(actor, 'setup.arrivals')
  const [centres, groups] = await Promise.all([listCentreChoices(grant), listGroupChoices(grant)])
  return { centres, groups }
}

export async function addArrivals(actor: Actor, input: unknown, now: Date): Promise<ArrivalsKey> {
  const grant = demand(actor, 'setup.arrivals')
  const arrivals = parse(yearArrivalsForm, input)
  const { centreId, group } = arrivals
  await inEntry(
    grant,
    { now, action: 'added', subject: 'arrivals', subjectId: keyOf(arrivals), columns: COLUMNS },
    entry => insertArrivals(entry, arrivals),
  )
  return { centreId, group }
}

export async function changeArrivals(
  actor: Actor,
  key: ArrivalsKey,
  input: unknown,
  now: Date,
): Promise<void> {
  const grant = demand(actor, 'setup.arrivals')
  const { version } = parse(versionForm, input)
  const figures = parse(figuresForm, input)
  const before = await getRow(demand(actor, 'setup.read'), key)
  const isChanged = (['animalsPerYear', 'monthShares', 'eventSizes'] as const).some(
    name => said(before[name]) !== said(figures[name]),
  )
  const mark = isChanged && figures.mark === before.mark ? OURS : figures.mark
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'arrivals', subjectId: keyOf(key), columns: COLUMNS },
    entry => updateArrivals(entry, { ...key, version }, { ...figures, mark }),
  )
}

function keyOf({ centreId, group }: ArrivalsKey): string {
  return `${centreId}.${group}`
}

/** Figures as people see them: what differs beyond that was only written differently. */
function said(figures: number | readonly number[]): string {
  return [figures]
    .flat()
    .map(figure => figure.toFixed(8))
    .join(' ')
}
