'use server'

import { driveByPhone } from '#lib/service/drive.ts'
import { setMoveAside, takeMoveUp } from '#lib/service/move-aside.ts'
import { callJourneyOff, giveLegOn, makeLegLink, planJourney, turnBack } from '#lib/service/road-plan.ts'
import { cancelTransfer, proposeTransfer } from '#lib/service/transfer.ts'
import { defineAction } from '#lib/web/define-action.ts'
import type { FormInput } from '#lib/web/form.ts'
import { driveLinkUrl } from '#lib/web/link-url.ts'
import { paths } from '#lib/web/paths.ts'

const legOf = (form: FormInput) => Number(form['legId'])
const journeyOf = (form: FormInput) => Number(form['journeyId'])
const CHANGED = ['journey', 'casualty'] as const

export const planned = defineAction(async ({ actor, form, now }) => {
  const id = await planJourney(actor, form, now)
  return { to: paths.journey(id, { done: 'planned' }), refresh: CHANGED }
})

/** What a driver said on the phone. */
export const wroteDown = defineAction(async ({ actor, form, now }) => {
  const id = await driveByPhone(actor, legOf(form), form, now)
  return { to: paths.journey(id, { done: 'yes' }), refresh: CHANGED }
})

export const gaveOn = defineAction(async ({ actor, form, now }) => {
  const id = await giveLegOn(actor, legOf(form), form, now)
  return { to: paths.journey(id, { done: 'yes' }), refresh: CHANGED }
})

/** A link to send by hand: shown once, kept nowhere. */
export const madeLink = defineAction(async ({ actor, form, now }) => {
  const link = driveLinkUrl(await makeLegLink(actor, legOf(form), now))
  return { told: { link }, refresh: ['journey'] }
})

export const turnedBack = defineAction(async ({ actor, form, now }) => {
  await turnBack(actor, journeyOf(form), now)
  return { to: paths.journey(journeyOf(form), { done: 'yes' }), refresh: CHANGED }
})

export const calledOff = defineAction(async ({ actor, form, now }) => {
  await callJourneyOff(actor, journeyOf(form), now)
  return { to: paths.journey(journeyOf(form), { done: 'yes' }), refresh: CHANGED }
})

/** A move is put to the receiving centre. */
export const proposed = defineAction(async ({ actor, form, now }) => {
  const { isAgreed } = await proposeTransfer(actor, form, now)
  return {
    to: paths.moves({ done: isAgreed ? 'agreed' : 'proposed' }),
    refresh: ['journey', 'casualty', 'call'],
  }
})

export const cancelled = defineAction(async ({ actor, form, now }) => {
  await cancelTransfer(actor, Number(form['transferId']), now)
  return { to: paths.moves({ done: 'cancelled' }), refresh: ['journey', 'casualty', 'call'] }
})

/** Not this one, because. */
export const setAside = defineAction(async ({ actor, form, now }) => {
  await setMoveAside(actor, form, now)
  return { to: paths.moves({ done: 'aside' }), refresh: ['journey', 'casualty'] }
})

export const takenUp = defineAction(async ({ actor, form, now }) => {
  await takeMoveUp(actor, form['asideId'], now)
  return { to: paths.moves({ done: 'taken-up' }), refresh: ['journey', 'casualty'] }
})
