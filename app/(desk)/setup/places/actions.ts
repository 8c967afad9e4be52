'use server'

import { addPlace, changePlace, importPlaces, switchPlace } from '#lib/service/setup/place.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'
import { idIn, keptAt, switchedTo } from '#lib/web/setup-form.ts'

export const addPlaceAction = defineAction(async ({ actor, form, now }) => {
  const id = await addPlace(actor, form, now)
  return { to: keptAt('places', id, 'added'), refresh: ['setup'] }
})

export const changePlaceAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changePlace(actor, id, form, now)
  return { to: keptAt('places', id, 'changed'), refresh: ['setup'] }
})

export const switchPlaceAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await switchPlace(actor, id, form, now)
  return { to: keptAt('places', id, switchedTo(form)), refresh: ['setup'] }
})

export const importPlacesAction = defineAction(async ({ actor, form, now }) => {
  await importPlaces(actor, form, now)
  return { to: paths.setupList('places', { kept: 'imported' }), refresh: ['setup'] }
})
