/**
 * The words around links that set a password: the pages, what an administrator hands over, the mail.
 * Promise: a mail says who it is for, what the link does, how long it works, and what to do if nobody asked for it.
 */
import type { Said } from './said.ts'

export type PasswordLink = {
  readonly name: string
  readonly purpose: 'invitation' | 'reset'
  readonly url: string
  readonly hours: number
}

export const PASSWORD_LINK = {
  title: 'Set a password',
  note: 'This link works once. With the password set you are signed in, and every other session of yours ends.',
  email: 'You sign in with',
  new: 'New password',
  hint: '12 characters or more; a few words that nobody would guess are best.',
  set: 'Set this password',
  toSignIn: 'Sign in',
  toForgot: 'Ask for a new link',
  forgotTitle: 'Forgotten password',
  forgotHeading: 'Ask for a link to set a new password',
  forgotBasis: 'It goes to the e-mail that an administrator of the network has for you.',
  forgotNoMail:
    'This installation sends no mail: ask an administrator of the network, who can make a link for you.',
  forgotGo: 'Send me a link',
  forgotDone: 'If somebody here has this e-mail, a link is on its way to it',
  forgotDoneNext:
    'It works for an hour. If nothing comes, look among the unwanted mail, then ask an administrator.',
  forgot: 'Forgotten password',
} as const

/** "Welcome, Nell Thrift: choose a password". */
export function doorAnswer(name: string, isInvitation: boolean): string {
  return isInvitation ? `Welcome, ${name}: choose a password` : `${name}: choose a new password`
}

export const WAY_IN = {
  head: 'Way in',
  hasNone: 'No password yet: make an invitation.',
  has: 'If the password is lost, a link lets this person set a new one.',
  mails: 'The link goes to the e-mail above and is not shown here.',
  shows: 'This installation sends no mail: the link is shown here once, to hand over.',
  invite: 'Invite',
  reset: 'Make a link for a new password',
  link: 'The link',
  once: 'It is shown this once and works once. Hand it over where nobody else reads; a new link takes it back.',
} as const

/** "An invitation is on its way to nell@example.org". */
export function mailedWords(to: string): string {
  return `The link is on its way to ${to}`
}

/** "A link is made; it works until Thu 3 Dec, 14:20". */
export function madeWords(until: string): string {
  return `The link is made; it works until ${until}`
}

/** The mail of a link. */
export function passwordMail({ name, purpose, url, hours }: PasswordLink): { subject: string; body: string } {
  const isInvitation = purpose === 'invitation'
  const what = isInvitation
    ? 'You have been added to the duty line. Choose a password here:'
    : 'Somebody asked for a new password for the duty line. Choose one here:'
  const otherwise = isInvitation
    ? 'If you do not know what this is, leave it: without the link nothing happens.'
    : 'If that was not you, leave it: your password stays as it is.'
  return {
    subject: isInvitation ? 'Your way in to the duty line' : 'A new password for the duty line',
    body: [`${name},`, what, url, `The link works once, for ${validWords(hours)}.`, otherwise].join('\n\n'),
  }
}

function validWords(hours: number): string {
  if (hours === 1) return 'an hour'
  return hours <= 24 ? `${hours} hours` : `${Math.round(hours / 24)} days`
}

const AGAIN = 'Ask for a new one: an administrator of the network can make it.'

export const LINK_RULES: Readonly<Record<string, Said>> = {
  'link-used': { say: 'This link was used already', next: `It works once. ${AGAIN}` },
  'link-ran-out': { say: 'This link ran out', next: AGAIN },
  'link-taken-back': { say: 'This link was taken back, or a newer one took its place', next: AGAIN },
  'link-for-nobody': {
    say: 'Nobody who is switched on has this number',
    next: 'Switch this person on first, then make the link.',
  },
  'no-mail': {
    say: 'This installation sends no mail',
    next: 'Ask an administrator of the network, who can make a link for you.',
  },
}
