'use server'

import { authoriseCentre, removeCentre } from '#lib/service/licence.ts'
import { addRule, changeRule } from '#lib/service/setup/rule.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { keptAt, ruleIdOf, ruleKeyOf, textIn } from '#lib/web/setup-form.ts'

export const addRuleAction = defineAction(async ({ actor, form, now }) => {
  const id = await addRule(actor, form, now)
  return { to: keptAt('rules', ruleIdOf(id), 'added'), refresh: ['setup'] }
})

export const changeRuleAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await changeRule(actor, ruleKeyOf(id), form, now)
  return { to: keptAt('rules', id, 'changed'), refresh: ['setup'] }
})

export const authoriseAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await authoriseCentre(actor, ruleKeyOf(id).key, form, now)
  return { to: keptAt('rules', id, 'changed'), refresh: ['setup'] }
})

export const unauthoriseAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await removeCentre(actor, ruleKeyOf(id).key, form, now)
  return { to: keptAt('rules', id, 'changed'), refresh: ['setup'] }
})
