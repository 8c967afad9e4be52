'use server'

import { addPerson, changePassword, changePerson, switchPerson } from '#lib/service/setup/person.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { idIn, keptAt, switchedTo } from '#lib/web/setup-form.ts'

export const addPersonAction = defineAction(async ({ actor, form, now }) => {
  const id = await addPerson(actor, form, now)
  return { to: keptAt('people', id, 'added'), refresh: ['person'] }
})

export const changePersonAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changePerson(actor, id, form, now)
  return { to: keptAt('people', id, 'changed'), refresh: ['person'] }
})

export const changePasswordAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changePassword(actor, id, form, now)
  return { to: keptAt('people', id, 'password'), refresh: ['person'] }
})

export const switchPersonAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await switchPerson(actor, id, form, now)
  return { to: keptAt('people', id, switchedTo(form)), refresh: ['person'] }
})
