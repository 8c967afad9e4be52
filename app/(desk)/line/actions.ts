'use server'

import { acceptLine, offerLine, stayOnLine, takeOfferBack, takeOverLine } from '#lib/service/line.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

const DONE = { to: paths.line(), refresh: ['line'] } as const

export const offered = defineAction(async ({ actor, form, now }) => {
  await offerLine(actor, form, now)
  return DONE
})

export const takenBack = defineAction(async ({ actor, now }) => {
  await takeOfferBack(actor, now)
  return DONE
})

export const stayed = defineAction(async ({ actor, form, now }) => {
  await stayOnLine(actor, form, now)
  return DONE
})

export const accepted = defineAction(async ({ actor, form, now }) => {
  await acceptLine(actor, form, now)
  return DONE
})

export const takenOver = defineAction(async ({ actor, form, now }) => {
  await takeOverLine(actor, form, now)
  return DONE
})
