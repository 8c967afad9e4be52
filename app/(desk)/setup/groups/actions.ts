'use server'

import { changeGroup } from '#lib/service/setup/group.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { keptAt, textIn } from '#lib/web/setup-form.ts'

export const changeGroupAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await changeGroup(actor, id, form, now)
  return { to: keptAt('groups', id, 'changed'), refresh: ['setup'] }
})
