/**
 * The words of signing in and out, and of waiting between tries.
 */

export const SIGN_IN_WORDS = {
  title: 'Sign in',
  heading: 'Sign in to the duty line',
  basis: 'Your roles are read anew with each page. An administrator of the network adds people.',
  email: 'E-mail',
  password: 'Password',
  go: 'Sign in',
  out: 'Sign out',
} as const

export const PROVIDER = {
  head: 'Without a password',
  note: 'It must know you by the e-mail that an administrator of the network has for you.',
  unknown: 'Nobody here has the e-mail that this account says is yours',
  failed: 'The other account did not let you in',
  next: 'Sign in with your password, or ask an administrator of the network.',
} as const

/** "Sign in with Coast account". */
export function providerWords(name: string): string {
  return `Sign in with ${name}`
}

const SECONDS_PER_MINUTE = 60

/** "Too many tries: the next one is heard in 40 seconds". */
export function waitWords(seconds: number): string {
  return `Too many tries: the next one is heard in ${durationWords(seconds)}`
}

function durationWords(seconds: number): string {
  if (seconds <= SECONDS_PER_MINUTE) return seconds === 1 ? '1 second' : `${seconds} seconds`
  return `${Math.ceil(seconds / SECONDS_PER_MINUTE)} minutes`
}
