/**
 * What a person reads when judging the forecast is refused: what happened, and what to do now.
 */
import type { Said } from './said.ts'

export const JUDGED_CONSTRAINTS: Readonly<Record<string, Said>> = {
  backtest_one_open: {
    say: 'The forecast is being judged already',
    next: 'Wait until it is done, or cancel it and begin again. What is judged stays either way.',
  },
}

export const JUDGED_RULES = {
  'backtest-not-open': {
    say: 'The forecast is not being judged any more',
    next: 'What was judged stands below. You can begin again.',
  },
} as const
