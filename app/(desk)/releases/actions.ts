'use server'

import { callOff, planRelease, recordRelease } from '#lib/service/release.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

export const releasePlanned = defineAction(async ({ actor, form, now }) => {
  await planRelease(actor, form, now)
  return { to: paths.releases({ done: 'planned' }), refresh: ['casualty'] as const }
})

export const releaseRecorded = defineAction(async ({ actor, form, now }) => {
  await recordRelease(actor, form, now)
  return { to: paths.releases({ done: 'gone' }), refresh: ['casualty'] as const }
})

export const releaseCalledOff = defineAction(async ({ actor, form, now }) => {
  await callOff(actor, form, now)
  return { to: paths.releases({ done: 'off' }), refresh: ['casualty'] as const }
})
