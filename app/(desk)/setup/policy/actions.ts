'use server'

import { changePolicy, changeWeights } from '#lib/service/setup/policy.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

export const changePolicyAction = defineAction(async ({ actor, form, now }) => {
  await changePolicy(actor, form, now)
  return { to: paths.setupList('policy', { kept: 'changed' }), refresh: ['setup'] }
})

export const changeWeightsAction = defineAction(async ({ actor, form, now }) => {
  await changeWeights(actor, form, now)
  return { to: paths.setupList('policy', { kept: 'changed' }), refresh: ['setup'] }
})
