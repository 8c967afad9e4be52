'use server'

import { driveByLink } from '#lib/service/drive-link.ts'
import { definePublicAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

/** What a driver says of a leg: who has the link is who may say it. */
export const saidOfDrive = definePublicAction(async ({ form, now }) => {
  const token = String(form['token'] ?? '')
  await driveByLink(token, form, now)
  return { to: paths.drive(token), refresh: ['journey', 'casualty'] }
})
