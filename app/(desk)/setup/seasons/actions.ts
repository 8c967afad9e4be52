'use server'

import { addSeason, changeSeason, switchSeason } from '#lib/service/setup/season.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { keptAt, seasonIdOf, seasonKeyOf, switchedTo, textIn } from '#lib/web/setup-form.ts'

export const addSeasonAction = defineAction(async ({ actor, form, now }) => {
  const at = await addSeason(actor, form, now)
  return { to: keptAt('seasons', seasonIdOf(at), 'added'), refresh: ['setup'] }
})

export const changeSeasonAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await changeSeason(actor, seasonKeyOf(id), form, now)
  return { to: keptAt('seasons', id, 'changed'), refresh: ['setup'] }
})

export const switchSeasonAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await switchSeason(actor, seasonKeyOf(id), form, now)
  return { to: keptAt('seasons', id, switchedTo(form)), refresh: ['setup'] }
})
