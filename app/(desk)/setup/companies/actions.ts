'use server'

import { addCompany, changeCompany } from '#lib/service/setup/company.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { keptAt, textIn } from '#lib/web/setup-form.ts'

export const addCompanyAction = defineAction(async ({ actor, form, now }) => {
  const id = await addCompany(actor, form, now)
  return { to: keptAt('companies', id, 'added'), refresh: ['setup'] }
})

export const changeCompanyAction = defineAction(async ({ actor, form, now }) => {
  const id = textIn(form, 'id')
  await changeCompany(actor, id, form, now)
  return { to: keptAt('companies', id, 'changed'), refresh: ['setup'] }
})
