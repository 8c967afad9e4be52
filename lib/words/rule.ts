/**
 * One sentence for each rule that can refuse a plan, by the rule's name: a constraint of the database or a rule of
 * lib/domain. A name without a sentence falls back to the words of its kind of refusal.
 */
import { ACCOUNT_RULES } from './account.ts'
import { PICTURE_RULES } from './attachment.ts'
import { CARD_RULES } from './casualty-change.ts'
import { constraintWords } from './constraint.ts'
import { STAY_RULES } from './constraint-stay.ts'
import { GROUP_RULES } from './group.ts'
import { JUDGED_RULES } from './judged-refusal.ts'
import { LEAVER_RULES } from './leaver.ts'
import { LINE_RULES } from './line-refusal.ts'
import { ASIDE_RULES } from './move-aside.ts'
import { LINK_RULES } from './password-link.ts'
import { RELEASE_RULES } from './release.ts'
import { ROAD_RULES } from './road-refusal.ts'
import { ROUND_RULES } from './round-entry.ts'
import type { Said } from './said.ts'
import { OVERWINTER_RULES } from './season.ts'
import { SETUP_RULES } from './setup-refusal.ts'
import { SHARED_RULES } from './shared-tablet.ts'
import { PROVIDER } from './sign-in.ts'

const RULES: Readonly<Record<string, Said>> = {
  ...ACCOUNT_RULES,
  ...LINK_RULES,
  ...SETUP_RULES,
  ...CARD_RULES,
  ...GROUP_RULES,
  ...ASIDE_RULES,
  ...JUDGED_RULES,
  ...LINE_RULES,
  ...LEAVER_RULES,
  ...STAY_RULES,
  ...OVERWINTER_RULES,
  ...RELEASE_RULES,
  ...ROUND_RULES,
  ...SHARED_RULES,
  ...ROAD_RULES,
  ...PICTURE_RULES,
  'sign-in-unknown': {
    say: 'This e-mail and password do not belong together',
    next: 'Check both and try again, or ask an administrator of the network for a new password.',
  },
  'sign-in-wait': {
    say: 'Too many tries: the next one is heard in a while',
    next: 'Then the right password lets you in. A try before that counts for nothing and makes the wait no longer.',
  },
  'provider-unknown': {
    say: PROVIDER.unknown,
    next: PROVIDER.next,
  },
  'demo-only': {
    say: 'This way in is open in the demonstration only',
    next: 'Sign in with your e-mail and password.',
  },
  'network-not-set-up': {
    say: 'This network has not been set up yet',
    next: 'An administrator begins with its name, line and time zone in setup.',
  },
  'call-changed-since': {
    say: 'Somebody writes on this call at the same time',
    next: 'Send it once more. Everything typed is kept.',
  },
  'call-closed-already': {
    say: 'This call was answered a moment ago',
    next: 'Open it in the list to see what was taken.',
  },
  'rang-back-already': {
    say: 'Somebody rang back a moment ago',
    next: 'What was said stands on the call.',
  },
  'option-gone': {
    say: 'This option is no longer there: the network changed since it was shown',
    next: 'The list below is new; the next best stands first. Everything typed is kept.',
  },
  'place-gone': {
    say: 'The place shown with this option was taken a moment ago',
    next: 'The list below is new; the next best stands first. Everything typed is kept.',
  },
  'word-day-gone': {
    say: 'This day can no longer be said',
    next: 'The buttons are new now. Tap again.',
  },
  'ask-first-unanswered': {
    say: 'This centre wants to be asked first',
    next: 'Ring it and write who said yes, or ask now with the answer to come. Everything typed is kept.',
  },
  'ask-answered-already': {
    say: 'This ask was answered a moment ago',
    next: 'Look at what it says now.',
  },
  'ask-ran-out': {
    say: 'The time for this answer is over: somebody else is being asked',
    next: 'Should the yes still be wanted, ask again.',
  },
  'ask-taken-back': {
    say: 'Nobody waits for this answer any more: another has said yes, or the ask was taken back',
    next: 'Thank whoever answered. Nothing was booked.',
  },
  'link-over': {
    say: 'This link was used, taken back, or is over',
    next: 'Ring the line if there is still something to say.',
  },
  'vet-time-ahead': {
    say: 'The vet sees it from now on, within two months',
    next: 'Change the day or the time. Everything typed is kept.',
  },
  'referral-agreed': {
    say: 'A practice has said yes to this already',
    next: 'Look at what it says now.',
  },
  'practice-asked-already': {
    say: 'This practice is being asked already',
    next: 'Wait for its answer, or ask another one.',
  },
}

/** What a rule says, when it has a sentence of its own. */
export function ruleWords(rule: string): Said | undefined {
  return Object.hasOwn(RULES, rule) ? RULES[rule] : constraintWords(rule)
}
