'use server'

import { changeOwnPassword, endOwnSessions } from '#lib/service/account.ts'
import { chooseOwnCode } from '#lib/service/short-code.ts'
import { currentAddress } from '#lib/web/address.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'
import { beginSession, endSession, shareSession } from '#lib/web/session.ts'

export const changeMyPassword = defineAction(async ({ actor, form, now }) => {
  const address = await currentAddress()
  await beginSession(await changeOwnPassword(actor, form, { address, now }))
  return { to: paths.me({ kept: 'password' }), refresh: ['account'] }
})

export const signOutEverywhere = defineAction(async ({ actor, now }) => {
  await endOwnSessions(actor, now)
  await endSession()
  return { to: paths.signIn(), refresh: ['session'] }
})

/** Initials and a short code for shared tablets. */
export const chooseMyCode = defineAction(async ({ actor, form, now }) => {
  await chooseOwnCode(actor, form, now)
  return { to: paths.me({ kept: 'code' }), refresh: ['account'] }
})

/** This browser is one that several people share, until somebody signs out. */
export const shareThisTablet = defineAction(async () => {
  await shareSession()
  return { to: paths.round(), refresh: ['session'] }
})
