'use server'

import { openCall, promiseCallBack, recordCallBack, saveSheet, setAside } from '#lib/service/call.ts'
import { decideSame } from '#lib/service/same-animal.ts'
import { takeOption } from '#lib/service/take-option.ts'
import { sheetOf } from '#lib/web/call-form.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'
import { refresh } from '#lib/web/refresh.ts'

export const takeCall = defineAction(async ({ actor, now }) => {
  const id = await openCall(actor, now)
  return { to: paths.call(id), refresh: ['call'] }
})

/** Every button of the call sheet: the sheet is kept first, whatever happens to what was asked. */
export const answerSheet = defineAction(async ({ actor, form, now }) => {
  const { callId, base, input } = sheetOf(form)
  await saveSheet(actor, callId, base, input, now)
  refresh('call')
  const asked = form['ask']
  const key = asked ?? form['take']
  if (typeof key === 'string' && key !== '') {
    const taking = {
      key,
      reason: form['reason'],
      agreedBy: form[`agreedBy-${key}`],
      askNow: asked !== undefined,
      places: form[`places-${key}`],
    }
    await takeOption(actor, callId, taking, now)
    return { to: paths.call(callId), refresh: ['call', 'casualty'] }
  }
  const other = form['same'] ?? form['apart']
  if (typeof other === 'string') {
    const isSame = form['same'] === undefined ? 'no' : 'yes'
    await decideSame(actor, callId, { otherId: other, isSame }, now)
    return { to: paths.call(callId), refresh: ['call'] }
  }
  if (form['do'] === 'park') {
    await setAside(actor, callId, now)
    return { to: paths.calls(), refresh: ['call'] }
  }
  if (form['do'] === 'next') {
    await setAside(actor, callId, now)
    return { to: paths.call(await openCall(actor, now)), refresh: ['call'] }
  }
  if (form['do'] === 'call-back') {
    const promised = {
      minutes: form['callBackMinutes'],
      what: form['callBackWhat'],
      ownerId: form['callBackOwner'],
    }
    await promiseCallBack(actor, callId, promised, now)
    return { to: paths.calls(), refresh: ['call'] }
  }
  return { to: paths.call(callId), refresh: ['call'] }
})

export const calledBack = defineAction(async ({ actor, form, now }) => {
  await recordCallBack(actor, Number(form['callBackId']), { said: form['said'] }, now)
  return { to: paths.calls(), refresh: ['call'] }
})

export const toldApart = defineAction(async ({ actor, form, now }) => {
  const callId = Number(form['callId'])
  await decideSame(actor, callId, { otherId: form['otherId'], isSame: 'no' }, now)
  return { to: paths.call(callId), refresh: ['call'] }
})
