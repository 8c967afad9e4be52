/**
 * A tablet that several people share: who stands before it, and what it does not take.
 */

export const SHARED = {
  head: 'Shared tablets',
  note: 'On a tablet that several people share, each entry asks for these, so that the record says who.',
  initials: 'Initials',
  initialsHint: 'Two to four letters that nobody else here signs with',
  code: 'Short code',
  codeHint: 'Four to eight digits; only a hash of it is kept',
  choose: 'Keep initials and code',
  chosen: 'Initials and code are kept',
  share: 'This tablet is shared',
  shareNote:
    'From then on this tablet takes entries of the round alone, each with initials and code, and keeps nothing for when there is no signal. It ends when somebody signs out.',
  isShared: 'Shared tablet',
  who: 'Who are you',
} as const

/** Rules that can refuse what a shared tablet sends. */
export const SHARED_RULES = {
  'shared-tablet': {
    say: 'A shared tablet takes entries of the round alone, with initials and code',
    next: 'Use a device of your own, or sign out here and in again.',
  },
  'short-code-unknown': {
    say: 'These initials and this code do not belong together',
    next: 'Try again, or choose a new code on your own page.',
  },
} as const
