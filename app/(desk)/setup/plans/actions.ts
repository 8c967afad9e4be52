'use server'

import {
  addPlan,
  removePlanGate,
  removePlanStage,
  savePlanGate,
  savePlanStage,
  switchPlan,
} from '#lib/service/setup/plan.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { idIn, keptAt, stageIn, switchedTo, textIn } from '#lib/web/setup-form.ts'

export const addPlanAction = defineAction(async ({ actor, form, now }) => {
  const id = await addPlan(actor, form, now)
  return { to: keptAt('plans', id, 'added'), refresh: ['setup'] }
})

export const switchPlanAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await switchPlan(actor, id, form, now)
  return { to: keptAt('plans', id, switchedTo(form)), refresh: ['setup'] }
})

export const saveStageAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await savePlanStage(actor, id, stageIn(form, 'was'), form, now)
  return { to: keptAt('plans', id, 'changed'), refresh: ['setup'] }
})

export const removeStageAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await removePlanStage(actor, id, stageIn(form, 'was'), form, now)
  return { to: keptAt('plans', id, 'changed'), refresh: ['setup'] }
})

export const saveGateAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  const gateId = textIn(form, 'gateId') === '' ? undefined : idIn(form, 'gateId')
  await savePlanGate(actor, id, gateId, form, now)
  return { to: keptAt('plans', id, 'changed'), refresh: ['setup'] }
})

export const removeGateAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await removePlanGate(actor, id, idIn(form, 'gateId'), form, now)
  return { to: keptAt('plans', id, 'changed'), refresh: ['setup'] }
})
