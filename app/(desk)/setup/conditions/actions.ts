'use server'

import { addCondition, changeCondition, switchCondition } from '#lib/service/setup/condition.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { keptAt, switchedTo, textIn } from '#lib/web/setup-form.ts'

export const addConditionAction = defineAction(async ({ actor, form, now }) => {
  const id = await addCondition(actor, form, now)
  return { to: keptAt('conditions', id, 'added'), refresh: ['setup'] }
})

export const changeConditionAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await changeCondition(actor, id, form, now)
  return { to: keptAt('conditions', id, 'changed'), refresh: ['setup'] }
})

export const switchConditionAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await switchCondition(actor, id, form, now)
  return { to: keptAt('conditions', id, switchedTo(form)), refresh: ['setup'] }
})
