'use server'

import { liftStop, planStop } from '#lib/service/setup/stop.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'
import { idIn, keptAt } from '#lib/web/setup-form.ts'

export const planStopAction = defineAction(async ({ actor, form, now }) => {
  const id = await planStop(actor, form, now)
  return { to: keptAt('stops', id, 'stopped'), refresh: ['setup', 'casualty'] }
})

export const liftStopAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  const { hadBegun } = await liftStop(actor, id, now)
  const to = hadBegun ? keptAt('stops', id, 'ended') : paths.setupList('stops', { kept: 'taken-back' })
  return { to, refresh: ['setup'] }
})
