/**
 * The words of the frame's own pages: its name, nothing here, not allowed, our mistake.
 */

export const PAGE_WORDS = {
  name: 'Roostwright',
  description: 'Casualty referral and housing for a network of wildlife centres',
  toFront: 'Go to the front page',
  again: 'Try again',
} as const

export const MISSING_WORDS = {
  title: 'Nothing here',
  heading: 'There is nothing at this address',
  basis: 'It may belong to a centre or a practice that is not yours, or the address is mistyped.',
  toCasualties: 'Look for an animal',
} as const

export const FORBIDDEN_WORDS = {
  title: 'Not allowed',
  heading: 'Your role does not allow this page',
  basis: 'Ask an administrator of the network if it should.',
} as const

export const MISTAKE_WORDS = {
  title: 'Our mistake',
  heading: 'That is our mistake',
  basis: 'Nothing was changed by it. Try again in a minute.',
} as const

/** What to quote when it stays. */
export function mistakeNumber(digest: string): string {
  return `If it stays, quote ${digest}.`
}
