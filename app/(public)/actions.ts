'use server'

import { getFront } from '#lib/service/front.ts'
import { definePublicAction } from '#lib/web/define-action.ts'
import { signInAsDemo } from '#lib/web/demo.ts'
import { paths } from '#lib/web/paths.ts'

/** The demonstration's one button: the duty coordinator's session, and the call that waits. */
export const answerWaitingCall = definePublicAction(async () => {
  const { coordinatorEmail, waitingCallId } = await getFront()
  await signInAsDemo(coordinatorEmail ?? '')
  return { to: waitingCallId === null ? paths.calls() : paths.call(waitingCallId), refresh: ['session'] }
})
