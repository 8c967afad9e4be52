'use server'

import { changeWalk } from '#lib/service/setup/walk.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'
import { idIn } from '#lib/web/setup-form.ts'

export const changeWalkAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changeWalk(actor, id, form, now)
  return { to: paths.setupWalk(id, { kept: 'walked' }), refresh: ['setup'] }
})
