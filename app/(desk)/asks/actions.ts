'use server'

import { readAskText } from '#lib/service/ask.ts'
import { answerByPhone, askNext, makeAskLink, takeAskBack } from '#lib/service/ask-answer.ts'
import { putToPractice } from '#lib/service/referral.ts'
import { defineAction } from '#lib/web/define-action.ts'
import type { FormInput } from '#lib/web/form.ts'
import { paths } from '#lib/web/paths.ts'

const idOf = (form: FormInput) => Number(form['askId'])

/** A yes or no that somebody said on the phone. */
export const answered = defineAction(async ({ actor, form, now }) => {
  await answerByPhone(actor, idOf(form), form, now)
  return { to: paths.ask(idOf(form), { done: 'yes' }), refresh: ['call', 'casualty'] }
})

/** Nobody picks up. */
export const wentOn = defineAction(async ({ actor, form, now }) => {
  await askNext(actor, idOf(form), now)
  return { to: paths.calls({ done: 'asked' }), refresh: ['call', 'casualty'] }
})

export const tookBack = defineAction(async ({ actor, form, now }) => {
  await takeAskBack(actor, idOf(form), now)
  return { to: paths.ask(idOf(form), { done: 'yes' }), refresh: ['call', 'casualty'] }
})

/** A link to send by hand: shown once, kept nowhere. */
export const madeLink = defineAction(async ({ actor, form, now }) => {
  const link = await makeAskLink(actor, idOf(form), now)
  return { told: { link, text: await readAskText(actor, idOf(form), link) }, refresh: ['call'] }
})

/** A casualty is put to a practice. */
export const referred = defineAction(async ({ actor, form, now }) => {
  const id = await putToPractice(actor, Number(form['casualtyId']), form, now)
  return { to: paths.ask(id), refresh: ['call', 'casualty'] }
})
