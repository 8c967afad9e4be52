/**
 * How long somebody waits between tries to sign in, after tries in a row that were refused.
 * Promise: the wait is strict for one account from one address, gentle for an account from anywhere, so that nobody
 * can shut a person out for long by guessing in her name; tries that come too early count for nothing.
 */

export const WAIT_KINDS = ['pair', 'account', 'address'] as const
export type WaitKind = (typeof WAIT_KINDS)[number]

/** What is remembered of one account, address, or both. */
export type Wait = { readonly refused: number; readonly lastAt: Date; readonly freeAt: Date }

type Rule = {
  /** So many tries in a row cost no wait. */
  readonly free: number
  readonly firstSeconds: number
  /** The wait doubles with each refusal up to this. */
  readonly longestSeconds: number
  /** After so long without a try it is as if there had been none. */
  readonly forgottenAfterSeconds: number
}

const HOUR = 3600
const MS = 1000
/** Two processes' clocks differ a little: a try that costs no wait is free by either. */
const ALWAYS = new Date(0)

/** Policy of ours, no source. */
export const WAIT_RULES: Readonly<Record<WaitKind, Rule>> = {
  pair: { free: 5, firstSeconds: 10, longestSeconds: 15 * 60, forgottenAfterSeconds: 24 * HOUR },
  account: { free: 20, firstSeconds: 2, longestSeconds: 30, forgottenAfterSeconds: HOUR },
  address: { free: 50, firstSeconds: 5, longestSeconds: 5 * 60, forgottenAfterSeconds: HOUR },
}

/** Waits are kept no longer than this after the last try. */
export const WAIT_KEPT_SECONDS = Math.max(
  ...Object.values(WAIT_RULES).map(rule => rule.forgottenAfterSeconds),
)

/** Whole seconds until the next try is heard; 0 when it is heard now. */
export function secondsToWait(wait: Wait | undefined, now: Date): number {
  return wait === undefined ? 0 : Math.max(0, Math.ceil((wait.freeAt.getTime() - now.getTime()) / MS))
}

/** What is remembered once a try is let begin: counted as refused until it is known to be right. */
export function afterTry(kind: WaitKind, wait: Wait | undefined, now: Date): Wait {
  const rule = WAIT_RULES[kind]
  const isForgotten =
    wait === undefined || now.getTime() - wait.lastAt.getTime() > rule.forgottenAfterSeconds * MS
  const refused = (isForgotten ? 0 : wait.refused) + 1
  const seconds = secondsAfter(rule, refused)
  return { refused, lastAt: now, freeAt: seconds === 0 ? ALWAYS : new Date(now.getTime() + seconds * MS) }
}

function secondsAfter(rule: Rule, refused: number): number {
  if (refused < rule.free) return 0
  return Math.min(rule.longestSeconds, rule.firstSeconds * 2 ** (refused - rule.free))
}
