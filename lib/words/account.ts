/**
 * The words of a person's own page: what she may do, her password, where she signed in.
 */
import type { Said } from './said.ts'

export const ACCOUNT = {
  title: 'Your page',
  link: 'Your page',
  roles: 'What you do',
  rolesNote: 'An administrator of the network changes it; rights hold from the next click.',
  password: 'Change the password',
  passwordNote: 'Every other session of yours ends at its next click, an open page within a minute.',
  old: 'Password now',
  new: 'New password',
  newHint: '12 characters or more; a few words that nobody would guess are best.',
  change: 'Change the password',
  signIns: 'Sign-ins of late',
  signInsNote:
    'Each with the address of the network it came from. Kept for 90 days. If one is not yours, change the password.',
  noSignIns: 'No sign-in yet',
  noSignInsComing: 'Each one stands here from now on, and each try that was refused.',
  when: 'When',
  what: 'What',
  address: 'Address',
  everywhere: 'Sign out everywhere',
  everywhereNote: 'For a phone that was lost or left in a van. This browser is signed out too.',
} as const

const KEPT: Readonly<Record<string, string>> = {
  password: 'The new password holds, and every other session of yours has ended',
}

/** What was just done, by the word in the address. */
export function accountKept(kept: string | undefined): string | undefined {
  return kept !== undefined && Object.hasOwn(KEPT, kept) ? KEPT[kept] : undefined
}

const WAYS = {
  password: 'signed in with the password',
  link: 'signed in by a link',
  provider: 'signed in through the other account',
  demonstration: 'signed in from the front page of the demonstration',
} as const

/** "signed in with the password", "a wrong password was refused". */
export function signInWords(how: keyof typeof WAYS, wasLetIn: boolean): string {
  return wasLetIn ? WAYS[how] : 'a wrong password was refused'
}

/** "2 roles". */
export function accountAnswer(name: string, roles: readonly string[]): string {
  return `${name}: ${roles.join('; ')}`
}

export const ACCOUNT_RULES: Readonly<Record<string, Said>> = {
  'old-password-wrong': {
    say: 'That is not your password now',
    next: 'Type the one you signed in with. If it is lost, ask an administrator for a link to set a new one.',
  },
  'password-of-demonstration': {
    say: 'Everybody knows this password: it is the one of the demonstration',
    next: 'Choose another.',
  },
}
