/**
 * What a person reads when something is refused: `say` is what happened, `next` what can be done.
 * Promise: every code has both; no blame, no codes, no jargon. A rule with a sentence of its own is said by rule.ts.
 */
import type { Failure, FailureCode, Problem } from '#lib/kernel/failure.ts'
import { ruleWords } from './rule.ts'
import type { Said } from './said.ts'

const SAID: Readonly<Record<FailureCode, Said>> = {
  invalid: {
    say: 'Some fields need another look',
    next: 'Each one says what it needs. Everything typed is kept.',
  },
  'signed-out': {
    say: 'You are signed out',
    next: 'Sign in again in another tab, then send this once more. Everything typed is kept.',
  },
  forbidden: {
    say: 'Your role does not allow this',
    next: 'Ask an administrator of the network if it should.',
  },
  'not-found': {
    say: 'There is nothing here',
    next: 'It may belong to another centre, or the address is mistyped.',
  },
  conflict: {
    say: 'Somebody changed this a moment ago',
    next: 'Look at what it says now, then decide again. Everything typed is kept.',
  },
  taken: {
    say: 'This place went to another animal a moment ago',
    next: 'Choose the next best. Everything typed is kept.',
  },
  rule: {
    say: 'A rule stands against this',
    next: 'Choose another way, or record a reason where one is asked for.',
  },
  fault: {
    say: 'The records cannot be reached just now',
    next: 'Try again in a minute. Everything typed is kept.',
  },
}

/** The two sentences of a refusal; `data.say` is what a service found out about this very case. */
export function failureWords(failure: Pick<Failure, 'code' | 'rule'> & Partial<Pick<Failure, 'data'>>): Said {
  const own = (failure.rule === undefined ? undefined : ruleWords(failure.rule)) ?? SAID[failure.code]
  const found = failure.data?.['say']
  return typeof found === 'string' ? { ...own, say: found } : own
}

/** The two sentences of a fault of ours, with the number under which it was written down. */
export function faultWords(id: string): Said {
  return {
    say: 'That is our mistake',
    next: `Try again in a minute. Everything typed is kept. If it stays, quote ${id}.`,
  }
}

/** One complaint about one field. */
export function problemWords({ reason, limit }: Problem): string {
  switch (reason) {
    case 'missing':
      return 'This is needed'
    case 'too-short':
      return `At least ${limit} characters or entries`
    case 'too-long':
      return `At most ${limit} characters`
    case 'too-small':
      return `${limit} or more`
    case 'too-big':
      return `${limit} or less`
    case 'not-above':
      return `More than ${limit}`
    case 'not-below':
      return `Less than ${limit}`
    case 'not-percent':
      return 'A share from 0 to 100 %'
    case 'not-initials':
      return 'Two to four letters'
    case 'not-short-code':
      return 'Four to eight digits'
    case 'code-easily-guessed':
      return 'Everybody tries this one first: choose another'
    case 'not-number':
    case 'not-nan':
      return 'A number, such as 12 or 0.5'
    case 'not-int':
      return 'A whole number, such as 12'
    case 'not-date':
      return 'A date, such as 26.11.2026'
    case 'not-time':
      return 'A time of day, such as 08:00'
    case 'not-email':
      return 'An e-mail address, such as name@example.org'
    case 'not-listed':
      return 'One of the choices'
    case 'unknown':
      return 'This field is not asked for'
    default:
      return ruleWords(reason)?.say ?? 'This does not fit here'
  }
}
