'use server'

import { changeOwnPassword, endOwnSessions } from '#lib/service/account.ts'
import { currentAddress } from '#lib/web/address.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'
import { beginSession, endSession } from '#lib/web/session.ts'

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
