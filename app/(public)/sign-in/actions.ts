'use server'

import { checkSignIn } from '#lib/service/sign-in.ts'
import { definePublicAction } from '#lib/web/define-action.ts'
import { paths, safeReturn } from '#lib/web/paths.ts'
import { beginSession, endSession } from '#lib/web/session.ts'

export const signIn = definePublicAction(async ({ form }) => {
  await beginSession(await checkSignIn(form))
  return { to: safeReturn(form['to']), refresh: ['session'] }
})

export const signOut = definePublicAction(async () => {
  await endSession()
  return { to: paths.front(), refresh: ['session'] }
})
