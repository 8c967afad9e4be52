/**
 * How next-auth reads a session: a signed cookie, which our own sign-in page sets once the service let somebody in.
 * Promise: the cookie names the person and the count of her sessions' ends, never a role; roles are read from the
 * records at each request, so that whoever leaves is out at once.
 */
import 'server-only'
import type { NextAuthOptions } from 'next-auth'
import { env } from '#lib/env.ts'
import { paths } from './paths.ts'

/** A shift and the next: long enough not to sign out a night, short enough for a phone left in a van. */
export const SESSION_SECONDS_MAX = 7 * 24 * 60 * 60

declare module 'next-auth' {
  interface Session {
    personId?: number
    epoch?: number
    /** The browser is shared: whoever enters something says who she is. */
    isShared?: boolean
  }
}

/** Read at each request, since a build has no surroundings. */
export function authOptions(): NextAuthOptions {
  return {
    secret: env().NEXTAUTH_SECRET,
    session: { strategy: 'jwt', maxAge: SESSION_SECONDS_MAX },
    pages: { signIn: paths.signIn(), error: paths.signIn() },
    providers: [],
    callbacks: {
      session: ({ session, token }) => ({
        expires: session.expires,
        ...(token.sub !== undefined && { personId: Number(token.sub) }),
        ...(typeof token['epoch'] === 'number' && { epoch: token['epoch'] }),
        ...(token['shared'] === true && { isShared: true }),
      }),
    },
  }
}
