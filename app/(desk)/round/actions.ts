'use server'

import { countCentre } from '#lib/service/closure.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

/** "As shown": somebody went round, and the picture is right. */
export const counted = defineAction(async ({ actor, form, now }) => {
  const centreId = Number(form['centreId'])
  await countCentre(actor, centreId, now)
  const as = form['as'] === 'table' ? 'table' : undefined
  return { to: paths.round(centreId, { as, done: 'yes' }), refresh: ['casualty'] }
})
