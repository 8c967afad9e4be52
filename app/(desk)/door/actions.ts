'use server'

import { recordAtTheDoor } from '#lib/service/at-the-door.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

export const cameIn = defineAction(async ({ actor, form, now }) => {
  const species = form['species'] || form['looks']
  const arrival = await recordAtTheDoor(actor, { ...form, species }, now)
  return { to: paths.door(Number(form['centreId']), { came: arrival }), refresh: ['casualty'] }
})
