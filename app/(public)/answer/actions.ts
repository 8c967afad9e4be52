'use server'

import { answerByLink } from '#lib/service/ask-link.ts'
import { definePublicAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

/** The one answer of a link: who has the link is who may give it. */
export const answerAsk = definePublicAction(async ({ form, now }) => {
  const token = String(form['token'] ?? '')
  await answerByLink(token, form, now)
  return { to: paths.answer(token), refresh: ['call', 'casualty'] }
})
