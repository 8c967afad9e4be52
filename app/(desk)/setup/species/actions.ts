'use server'

import { addSpecies, changeSpecies, switchSpecies } from '#lib/service/setup/species.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { keptAt, switchedTo, textIn } from '#lib/web/setup-form.ts'

export const addSpeciesAction = defineAction(async ({ actor, form, now }) => {
  const id = await addSpecies(actor, form, now)
  return { to: keptAt('species', id, 'added'), refresh: ['setup'] }
})

export const changeSpeciesAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await changeSpecies(actor, id, form, now)
  return { to: keptAt('species', id, 'changed'), refresh: ['setup'] }
})

export const switchSpeciesAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await switchSpecies(actor, id, form, now)
  return { to: keptAt('species', id, switchedTo(form)), refresh: ['setup'] }
})
