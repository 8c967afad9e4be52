'use server'

import { recordCallBack } from '#lib/service/call.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

export const rangBack = defineAction(async ({ actor, form, now }) => {
  await recordCallBack(actor, Number(form['callBackId']), { said: form['said'] }, now)
  return { to: paths.due(), refresh: ['call'] }
})
