'use server'

import { addGroup, changeGroup, switchGroup } from '#lib/service/setup/group.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { keptAt, switchedTo, textIn } from '#lib/web/setup-form.ts'

export const addGroupAction = defineAction(async ({ actor, form, now }) => {
  const id = await addGroup(actor, form, now)
  return { to: keptAt('groups', id, 'added'), refresh: ['setup'] }
})

export const changeGroupAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await changeGroup(actor, id, form, now)
  return { to: keptAt('groups', id, 'changed'), refresh: ['setup'] }
})

export const switchGroupAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await switchGroup(actor, id, form, now)
  return { to: keptAt('groups', id, switchedTo(form)), refresh: ['setup'] }
})
