'use server'

import { addRoom, changeRoom, switchRoom } from '#lib/service/setup/room.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { idIn, keptAt, switchedTo } from '#lib/web/setup-form.ts'

export const addRoomAction = defineAction(async ({ actor, form, now }) => {
  const id = await addRoom(actor, form, now)
  return { to: keptAt('rooms', id, 'added'), refresh: ['setup'] }
})

export const changeRoomAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await changeRoom(actor, id, form, now)
  return { to: keptAt('rooms', id, 'changed'), refresh: ['setup'] }
})

export const switchRoomAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await switchRoom(actor, id, form, now)
  return { to: keptAt('rooms', id, switchedTo(form)), refresh: ['setup'] }
})
