'use server'

import type { Route } from 'next'
import { recordArrivalOfCard } from '#lib/service/casualty-change.ts'
import { sayNoMore, sayRounds, takeWordBack } from '#lib/service/centre-word.ts'
import { enterOnRound, settleWaiting } from '#lib/service/round-entry.ts'
import { defineAction, defineSharedAction } from '#lib/web/define-action.ts'
import type { FormInput } from '#lib/web/form.ts'
import { paths } from '#lib/web/paths.ts'

/** Back to the view it was tapped on, at its line. */
function backTo(form: FormInput, done: string | number): Route {
  const as = form['as'] === 'list' ? 'list' : undefined
  const line = form['casualtyId']
  const to = paths.round(Number(form['centreId']), { as, done })
  return (typeof line === 'string' && line !== '' ? `${to}#line-${Number(line)}` : to) as Route
}

/** One tap: "as shown", a line fixed, or a tap taken back. */
export const tapped = defineSharedAction(async ({ actor, form, now }) => {
  const { entry } = await enterOnRound(actor, form, now)
  return { to: backTo(form, entry.id), refresh: ['casualty'] }
})

/** Somebody who was expected is here, in the place that was kept. */
export const cameHere = defineSharedAction(async ({ actor, form, now }) => {
  const { centreId, enclosureId, placeNo } = form
  await recordArrivalOfCard(actor, Number(form['casualtyId']), { centreId, enclosureId, placeNo }, now)
  return { to: backTo(form, 'arrived'), refresh: ['casualty'] }
})

/** A person looked at two versions. */
export const settled = defineAction(async ({ actor, form, now }) => {
  await settleWaiting(actor, Number(form['entryId']), form['version'] === 'tapped', now)
  return { to: backTo(form, 'settled'), refresh: ['casualty'] }
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
