/**
 * One sentence for each rule that can refuse a plan, by the rule's name: a constraint of the database or a rule of
 * lib/domain. A name without a sentence falls back to the words of its kind of refusal.
 */
import { constraintWords } from './constraint.ts'
import type { Said } from './said.ts'

const RULES: Readonly<Record<string, Said>> = {
  'sign-in-unknown': {
    say: 'This e-mail and password do not belong together',
    next: 'Check both and try again, or ask an administrator of the network for a new password.',
  },
  'demo-only': {
    say: 'This way in is open in the demonstration only',
    next: 'Sign in with your e-mail and password.',
  },
}

/** What a rule says, when it has a sentence of its own. */
export function ruleWords(rule: string): Said | undefined {
  return Object.hasOwn(RULES, rule) ? RULES[rule] : constraintWords(rule)
}
