'use server'

import { liftClosure } from '#lib/service/closure.ts'
import { planClosure } from '#lib/service/setup/closure.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'
import { idIn, keptAt } from '#lib/web/setup-form.ts'

export const planClosureAction = defineAction(async ({ actor, form, now }) => {
  const { id, broken } = await planClosure(actor, form, now)
  const to = paths.setupItem('closures', id, { kept: 'closed', broken: broken === 0 ? undefined : broken })
  return { to, refresh: ['setup', 'casualty'] }
})

export const liftClosureAction = defineAction(async ({ actor, form, now }) => {
  const id = idIn(form)
  await liftClosure(actor, id, now)
  return { to: keptAt('closures', id, 'lifted'), refresh: ['setup', 'casualty'] }
})
