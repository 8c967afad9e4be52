/**
 * Setting up centres: hours, who opens at night, what they take, standing offers.
 * Promise: a centre that keeps an animal or has promised a place is not switched off; the refusal names them. A group
 * that is no longer taken while some of it are here or promised is asked about first.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import {
  type CentreDetail,
  type CentreRow,
  getCentreDetail,
  insertCentre,
  listCentreRows,
  listTaken,
  updateCentre,
  updateCentreSwitch,
} from '#lib/db/setup/centre.ts'
import { type GroupChoice, listGroupChoices } from '#lib/db/setup/choice.ts'
import { listAskedFor, listAtCentre } from '#lib/db/setup/occupant.ts'
import { giveUpHolds, listOfGroups } from '#lib/db/setup/standing.ts'
import { centreForm } from '#lib/domain/centre.ts'
import { parse } from '#lib/domain/parse.ts'
import { switchForm, versionForm } from '#lib/domain/setup-form.ts'
import { orAsk } from './breaking.ts'
import { refuseSwitchOff } from './occupied.ts'

const COLUMNS = ['name', 'about', 'phone', 'position', 'hours', 'night_door', 'takes', 'offers']

export async function listCentres(actor: Actor, now: Date): Promise<CentreRow[]> {
  return listCentreRows(demand(actor, 'setup.read'), now)
}

export type CentreForm = {
  readonly centre: CentreDetail | undefined
  readonly groups: readonly GroupChoice[]
}

export async function getCentreForm(actor: Actor, id: number): Promise<CentreForm> {
  const grant = demand(actor, 'setup.read')
  const [centre, groups] = await Promise.all([getCentreDetail(grant, id), listGroupChoices(grant)])
  return { centre, groups }
}

export async function newCentreForm(actor: Actor): Promise<CentreForm> {
  return { centre: undefined, groups: await listGroupChoices(demand(actor, 'setup.housing')) }
}

export async function addCentre(actor: Actor, input: unknown, now: Date): Promise<number> {
  const grant = demand(actor, 'setup.housing')
  const centre = parse(centreForm, input)
  return inEntry(
    grant,
    { now, action: 'added', subject: 'centre', subjectId: id => id, columns: COLUMNS },
    entry => insertCentre(entry, centre),
  )
}

export async function changeCentre(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.housing')
  const { version } = parse(versionForm, input)
  const centre = parse(centreForm, input)
  await inEntry(
    grant,
    { now, action: 'changed', subject: 'centre', subjectId: id, columns: COLUMNS },
    async entry => {
      const left = (await listTaken(entry, id)).filter(group => !centre.takes.includes(group))
      const concerned = await listOfGroups(entry, id, left, now)
      const also = concerned.flatMap(one =>
        one.kind === 'hold' ? [] : [{ ...one, kind: 'not taken' as const }],
      )
      await orAsk(grant, entry, { scope: 'everywhere', input, now, also }, async () => {
        await updateCentre(entry, { id, version }, centre)
        await giveUpHolds(
          entry,
          concerned.flatMap(one => one.claimId ?? []),
          now,
        )
      })
    },
  )
}

export async function switchCentre(actor: Actor, id: number, input: unknown, now: Date): Promise<void> {
  const grant = demand(actor, 'setup.housing')
  const { version, isActive } = parse(switchForm, input)
  await inEntry(
    grant,
    {
      now,
      action: isActive ? 'switched on' : 'switched off',
      subject: 'centre',
      subjectId: id,
      columns: ['is_active'],
    },
    async entry => {
      await updateCentreSwitch(entry, { id, version }, isActive)
      if (isActive) return
      refuseSwitchOff(await listAtCentre(entry, id, now), await listAskedFor(entry, { centreId: id }))
    },
  )
}
