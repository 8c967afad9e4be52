/**
 * Movement stops and the other states of a site, planned from now or from later on.
 * Promise: the promises into and out of the site that a stop breaks are named before it is set; nothing that was
 * recorded changes. A stop that never began is taken back, one that holds is ended.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { listCentreChoices, type Named } from '#lib/db/setup/choice.ts'
import { countAt, endStop, getStopRow, listStopRows, type StopRow, writeStop } from '#lib/db/setup/stop.ts'
import { parseAt } from '#lib/domain/parse.ts'
import { stopInput } from '#lib/domain/record.ts'
import { Failure } from '#lib/kernel/failure.ts'
import { momentOf } from '../about-casualty.ts'
import { orAsk } from './breaking.ts'

const OVER_MAX = 20
const COLUMNS = ['site_state', 'covers_class', 'starts_at', 'ends_at', 'reason']

export type StopList = {
  readonly open: readonly StopRow[]
  readonly over: readonly StopRow[]
  /** The centres without a state of their own now. */
  readonly openCentres: readonly string[]
}

export async function listStops(actor: Actor, now: Date): Promise<StopList> {
  const grant = demand(actor, 'setup.read')
  const [rows, centres] = await Promise.all([listStopRows(grant, now, OVER_MAX), listCentreChoices(grant)])
  const stopped = new Set(
    rows.open.filter(row => row.startsAt.getTime() <= now.getTime()).map(row => row.centreId),
  )
  return { ...rows, openCentres: centres.filter(({ id }) => !stopped.has(id)).map(({ name }) => name) }
}

export type StopPage = {
  readonly stop: StopRow
  readonly state: 'planned' | 'in force' | 'over'
  /** Animals there that it covers. */
  readonly inside: number
}

export async function getStop(actor: Actor, id: number, now: Date): Promise<StopPage> {
  const grant = demand(actor, 'setup.read')
  const stop = await getStopRow(grant, id)
  return { stop, state: stateAt(stop, now), inside: await countAt(grant, stop.centreId, stop.coversClass) }
}

/** The centres that a stop can be set for. */
export async function newStopForm(actor: Actor): Promise<Named[]> {
  return listCentreChoices(demand(actor, 'site-state.change'))
}

export async function planStop(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'site-state.change')
  const stop = parseAt(stopInput, await momentOf(now), input)
  return inEntry(
    grant,
    {
      now,
      action: `site ${stop.siteState}`,
      subject: 'centre',
      subjectId: stop.centreId,
      columns: COLUMNS,
      reason: stop.reason,
    },
    entry => orAsk(grant, entry, { scope: 'everywhere', input, now }, () => writeStop(entry, stop, now)),
  )
}

/** Ends it now; says whether it had begun, since one that had not is gone. */
export async function liftStop(actor: Actor, id: number, now: Date): Promise<{ readonly hadBegun: boolean }> {
  const grant = demand(actor, 'site-state.change')
  const stop = await getStopRow(demand(actor, 'setup.read'), id)
  await inEntry(
    grant,
    { now, action: 'site open', subject: 'centre', subjectId: stop.centreId, columns: ['ends_at'] },
    async entry => {
      if (!(await endStop(entry, id, now))) throw new Failure('rule', { rule: 'stop-over-already' })
    },
  )
  return { hadBegun: stop.startsAt.getTime() < now.getTime() }
}

function stateAt({ startsAt, endsAt }: StopRow, now: Date): StopPage['state'] {
  if (endsAt !== null && endsAt.getTime() <= now.getTime()) return 'over'
  return startsAt.getTime() > now.getTime() ? 'planned' : 'in force'
}
