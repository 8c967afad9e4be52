/**
 * What a phone says without signal: what it shows, what waits, what was not taken.
 * Promise: says how old what it shows is, how many entries wait, and that none is lost.
 */

export const OFFLINE = {
  title: 'No connection',
  nothingKept: 'There is no connection, and this round was not loaded here before',
  next: 'Ring the centre, or go where there is signal. The round opens without signal once it was loaded with it.',
  signedOut: 'You are signed out',
  signIn: 'Sign in, and what waits is sent',
  notTaken: 'Not taken',
  putAway: 'Put it away',
  saved: 'recorded',
  waits: 'waits on this phone',
  waitsShort: 'waits to be sent',
  needsNumber: 'A number, such as 12 or 0.5',
  needsPlace: 'Choose an enclosure',
  needsSignal: 'This needs signal, and there is none',
  needsSignalNext: 'Nothing was recorded. Go where there is signal and press it again, or ring the desk.',
} as const

/** "No connection: shown as it was at Sun 29 Nov, 11:04". */
export function shownAsItWas(drawnAt: string): string {
  return `No connection: shown as it was ${drawnAt}`
}

/** "3 entries wait on this phone; each is sent once, with the time it happened". */
export function waitingWords(count: number): string {
  const what = count === 1 ? '1 entry waits' : `${count} entries wait`
  return `${what} on this phone; each is sent once, with the time it happened`
}
