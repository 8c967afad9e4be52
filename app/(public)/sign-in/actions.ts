'use server'

import { after } from 'next/server'
import { askForReset } from '#lib/service/password-link.ts'
import { checkSignIn } from '#lib/service/sign-in.ts'
import { currentAddress } from '#lib/web/address.ts'
import { definePublicAction } from '#lib/web/define-action.ts'
import { isDemo } from '#lib/web/demo.ts'
import { passwordLinkUrl } from '#lib/web/link-url.ts'
import { paths, safeReturn } from '#lib/web/paths.ts'
import { beginSession, endSession } from '#lib/web/session.ts'

export const signIn = definePublicAction(async ({ form, now }) => {
  const address = await currentAddress()
  await beginSession(await checkSignIn(form, { address, now, isDemo: isDemo() }))
  return { to: safeReturn(form['to']), refresh: ['session'] }
})

export const signOut = definePublicAction(async () => {
  await endSession()
  return { to: paths.front(), refresh: ['session'] }
})

export const askForLink = definePublicAction(async ({ form, now }) => {
  const send = await askForReset(form, passwordLinkUrl, { address: await currentAddress(), now })
  // Once she has her answer, so that its time tells nobody whether somebody has this e-mail.
  after(send)
  return { to: paths.forgot({ sent: 'yes' }) }
})
