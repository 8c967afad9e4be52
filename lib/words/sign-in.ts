/**
 * The words of signing in and out.
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
