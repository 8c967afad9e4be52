'use server'

import { isFailure } from '#lib/kernel/failure.ts'
import { askForBacktest, cancelBacktest } from '#lib/service/backtest.ts'
import { defineAction } from '#lib/web/define-action.ts'
import { paths } from '#lib/web/paths.ts'

/** Somebody else did the same a moment ago: the page says so, since the form that was sent is not on it any more. */
async function isDone(doing: Promise<void>): Promise<boolean> {
  try {
    await doing
    return true
  } catch (thrown) {
    if (isFailure(thrown) && thrown.code === 'conflict') return false
    throw thrown
  }
}

export const judgingAsked = defineAction(async ({ actor, now }) => {
  const isBegun = await isDone(askForBacktest(actor, now))
  return { to: paths.cameTrue(isBegun ? {} : { said: 'already' }), refresh: ['judged'] }
})

export const judgingCancelled = defineAction(async ({ actor, now }) => {
  const isCancelled = await isDone(cancelBacktest(actor, now))
  return { to: paths.cameTrue(isCancelled ? {} : { said: 'over' }), refresh: ['judged'] }
})
