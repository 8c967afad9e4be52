'use server'

import { addCentre, changeCentre, switchCentre } from '#lib/service/setup/centre.ts'
import { changeContacts } from '#lib/service/setup/centre-contact.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { idIn, keptAt, switchedTo } from '#lib/web/setup-form.ts'

export const addCentreAction = defineAction(async ({ actor, form, now }) => {
  const id = await addCentre(actor, form, now)
  return { to: keptAt('centres', id, 'added'), refresh: ['setup'] }
})

export const changeCentreAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changeCentre(actor, id, form, now)
  return { to: keptAt('centres', id, 'changed'), refresh: ['setup'] }
})

export const switchCentreAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await switchCentre(actor, id, form, now)
  return { to: keptAt('centres', id, switchedTo(form)), refresh: ['setup'] }
})

export const changeContactsAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changeContacts(actor, id, form, now)
  return { to: keptAt('centres', id, 'changed'), refresh: ['setup'] }
})
