'use server'

import { addArrivals, changeArrivals } from '#lib/service/setup/arrivals.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { arrivalsIdOf, arrivalsKeyOf, keptAt, textIn } from '#lib/web/setup-form.ts'

export const addArrivalsAction = defineAction(async ({ actor, form, now }) => {
  const key = await addArrivals(actor, form, now)
  return { to: keptAt('arrivals', arrivalsIdOf(key), 'added'), refresh: ['setup'] }
})

export const changeArrivalsAction = defineAction(async ({ actor, form, now }) => {
  const key = arrivalsKeyOf(textIn(form, 'id'))
  await changeArrivals(actor, key, form, now)
  return { to: keptAt('arrivals', arrivalsIdOf(key), 'changed'), refresh: ['setup'] }
})
