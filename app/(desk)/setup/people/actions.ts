'use server'

import { makePasswordLink } from '#lib/service/password-link.ts'
import { addPerson, changePassword, changePerson, switchPerson } from '#lib/service/setup/person.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { passwordLinkUrl } from '#lib/web/link-url.ts'
import { currentDay } from '#lib/web/network.ts'
import { idIn, keptAt, switchedTo } from '#lib/web/setup-form.ts'
import { dayAndClock } from '#lib/words/dates.ts'

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

export const makeLinkAction = defineAction(async ({ actor, form, now }) => {
  const made = await makePasswordLink(actor, idIn(form), passwordLinkUrl, now)
  if ('mailedTo' in made) return { told: made, refresh: ['person'] }
  const { zone } = await currentDay()
  return { told: { url: made.url, until: dayAndClock(made.validUntil, zone) }, refresh: ['person'] }
})

export const switchPersonAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await switchPerson(actor, id, form, now)
  return { to: keptAt('people', id, switchedTo(form)), refresh: ['person'] }
})
