'use server'

import { askForBacktest, cancelBacktest } from '#lib/service/backtest.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

export const judgingAsked = defineAction(async ({ actor, now }) => {
  await askForBacktest(actor, now)
  return { to: paths.cameTrue(), refresh: ['judged'] }
})

export const judgingCancelled = defineAction(async ({ actor, now }) => {
  await cancelBacktest(actor, now)
  return { to: paths.cameTrue(), refresh: ['judged'] }
})
