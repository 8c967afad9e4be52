'use server'

import { addPractice, changePractice, switchPractice } from '#lib/service/setup/practice.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { idIn, keptAt, switchedTo } from '#lib/web/setup-form.ts'

export const addPracticeAction = defineAction(async ({ actor, form, now }) => {
  const id = await addPractice(actor, form, now)
  return { to: keptAt('practices', id, 'added'), refresh: ['setup'] }
})

export const changePracticeAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changePractice(actor, id, form, now)
  return { to: keptAt('practices', id, 'changed'), refresh: ['setup'] }
})

export const switchPracticeAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await switchPractice(actor, id, form, now)
  return { to: keptAt('practices', id, switchedTo(form)), refresh: ['setup'] }
})
