/**
 * What the forms of setup offer to choose from: groups, companies, centres, rooms, enclosures, conditions.
 * Promise: in the order in which people look for them, only what is switched on.
 */
import 'server-only'
import type { Grant } from '#lib/authz/demand.ts'
import { db } from '../client.ts'

export type Named<Id = number> = { readonly id: Id; readonly name: string }
export type GroupChoice = Named<string> & { readonly animalClass: string }
export type CompanyChoice = Named<string> & { readonly preys: string | null }
export type RoomChoice = Named & { readonly centreId: number; readonly centre: string }
export type EnclosureChoice = Named & { readonly centre: string; readonly room: string }

export async function listGroupChoices(_grant: Grant): Promise<GroupChoice[]> {
  const rows = await db().speciesGroup.findMany({
    where: { isActive: true },
    select: { slug: true, name: true, class: true },
    orderBy: [{ class: 'asc' }, { name: 'asc' }],
  })
  return rows.map(row => ({ id: row.slug, name: row.name, animalClass: row.class }))
}

export async function listCompanyChoices(_grant: Grant): Promise<CompanyChoice[]> {
  const rows = await db().company.findMany({
    select: { slug: true, members: true, preys: true },
    orderBy: { slug: 'asc' },
  })
  return rows.map(row => ({ id: row.slug, name: row.members, preys: row.preys }))
}

/** Features that enclosures have, by name. */
export async function listFeatureChoices(_grant: Grant): Promise<string[]> {
  const rows = await db().$queryRaw<{ feature: string }[]>`
    select distinct unnest(features) as feature from enclosure order by 1`
  return rows.map(({ feature }) => feature)
}

export async function listCentreChoices(_grant: Grant): Promise<Named[]> {
  return db().centre.findMany({
    where: { isActive: true },
    select: { id: true, name: true },
    orderBy: { name: 'asc' },
  })
}

export async function listPracticeChoices(_grant: Grant): Promise<Named[]> {
  return db().practice.findMany({
    where: { isActive: true },
    select: { id: true, name: true },
    orderBy: { name: 'asc' },
  })
}

export async function listRoomChoices(_grant: Grant): Promise<RoomChoice[]> {
  const rows = await db().room.findMany({
    where: { isActive: true, centre: { isActive: true } },
    select: { id: true, name: true, centreId: true, centre: { select: { name: true } } },
    orderBy: [{ centre: { name: 'asc' } }, { walkingOrder: 'asc' }, { id: 'asc' }],
  })
  return rows.map(({ centre, ...row }) => ({ ...row, centre: centre.name }))
}

export async function listEnclosureChoices(_grant: Grant): Promise<EnclosureChoice[]> {
  const rows = await db().enclosure.findMany({
    where: { isActive: true, room: { isActive: true } },
    select: {
      id: true,
      name: true,
      room: { select: { name: true } },
      centre: { select: { name: true } },
    },
    orderBy: [
      { centre: { name: 'asc' } },
      { room: { walkingOrder: 'asc' } },
      { walkingOrder: 'asc' },
      { id: 'asc' },
    ],
  })
  return rows.map(row => ({ id: row.id, name: row.name, centre: row.centre.name, room: row.room.name }))
}

export async function listConditionChoices(_grant: Grant): Promise<Named<string>[]> {
  const rows = await db().condition.findMany({
    where: { isActive: true },
    select: { slug: true, name: true },
    orderBy: { name: 'asc' },
  })
  return rows.map(row => ({ id: row.slug, name: row.name }))
}

export async function listPlanGroupChoices(_grant: Grant): Promise<Named<string>[]> {
  const rows = await db().planGroup.findMany({ select: { slug: true }, orderBy: { slug: 'asc' } })
  return rows.map(row => ({ id: row.slug, name: row.slug }))
}
