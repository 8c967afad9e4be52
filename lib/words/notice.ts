/**
 * The margin words of the one notice, and how grave each is.
 * Promise: the word alone tells the kind; colour only repeats it.
 */

export const NOTICE_WORDS = {
  'nothing-here': { word: 'Nothing here', weight: 'plain' },
  working: { word: 'Working', weight: 'plain' },
  done: { word: 'Done', weight: 'plain' },
  'changed-since': { word: 'Changed since', weight: 'watch' },
  'just-taken': { word: 'Just taken', weight: 'grave' },
  'check-this': { word: 'Check this', weight: 'grave' },
  'no-connection': { word: 'No connection', weight: 'watch' },
  'our-mistake': { word: 'Our mistake', weight: 'grave' },
  'not-allowed': { word: 'Not allowed', weight: 'plain' },
  'not-enough-known': { word: 'Not enough known', weight: 'watch' },
  first: { word: 'First', weight: 'grave' },
  mind: { word: 'Mind', weight: 'watch' },
} as const
export type NoticeKind = keyof typeof NOTICE_WORDS
