'use server'

import { sayNoMore, sayRounds, takeWordBack } from '#lib/service/centre-word.ts'
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

/** "No more until Tuesday". */
export const saidNoMore = defineAction(async ({ actor, form, now }) => {
  const centreId = Number(form['centreId'])
  await sayNoMore(actor, centreId, form, now)
  return { to: paths.round(centreId, { done: 'said' }), refresh: ['casualty'] }
})

/** How many feeding rounds a day the centre can do. */
export const saidRounds = defineAction(async ({ actor, form, now }) => {
  const centreId = Number(form['centreId'])
  await sayRounds(actor, centreId, form, now)
  return { to: paths.round(centreId, { done: 'said' }), refresh: ['casualty'] }
})

export const tookWordBack = defineAction(async ({ actor, form, now }) => {
  const centreId = Number(form['centreId'])
  await takeWordBack(actor, centreId, form['kind'], now)
  return { to: paths.round(centreId, { done: 'said' }), refresh: ['casualty'] }
})
