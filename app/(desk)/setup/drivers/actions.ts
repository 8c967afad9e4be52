'use server'

import { addDriver, changeDriver, switchDriver } from '#lib/service/setup/driver.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { idIn, keptAt, switchedTo } from '#lib/web/setup-form.ts'

export const addDriverAction = defineAction(async ({ actor, form, now }) => {
  const id = await addDriver(actor, form, now)
  return { to: keptAt('drivers', id, 'added'), refresh: ['setup'] }
})

export const changeDriverAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changeDriver(actor, id, form, now)
  return { to: keptAt('drivers', id, 'changed'), refresh: ['setup'] }
})

export const switchDriverAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await switchDriver(actor, id, form, now)
  return { to: keptAt('drivers', id, switchedTo(form)), refresh: ['setup'] }
})
