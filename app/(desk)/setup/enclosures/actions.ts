'use server'

import { addEnclosure, changeEnclosure, switchEnclosure } from '#lib/service/setup/enclosure.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { idIn, keptAt, switchedTo } from '#lib/web/setup-form.ts'

export const addEnclosureAction = defineAction(async ({ actor, form, now }) => {
  const id = await addEnclosure(actor, form, now)
  return { to: keptAt('enclosures', id, 'added'), refresh: ['setup'] }
})

export const changeEnclosureAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changeEnclosure(actor, id, form, now)
  return { to: keptAt('enclosures', id, 'changed'), refresh: ['setup'] }
})

export const switchEnclosureAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await switchEnclosure(actor, id, form, now)
  return { to: keptAt('enclosures', id, switchedTo(form)), refresh: ['setup'] }
})
