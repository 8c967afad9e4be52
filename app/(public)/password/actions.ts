'use server'

import { setPasswordByLink } from '#lib/service/password-link.ts'
import { currentAddress } from '#lib/web/address.ts'
import { definePublicAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'
import { beginSession } from '#lib/web/session.ts'
import { textIn } from '#lib/web/setup-form.ts'

export const setMyPassword = definePublicAction(async ({ form, now }) => {
  const from = { address: await currentAddress(), now }
  await beginSession(await setPasswordByLink(textIn(form, 'token'), form, from))
  return { to: paths.front(), refresh: ['session'] }
})
