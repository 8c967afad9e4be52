/**
 * How next-auth knows people: e-mail and password, checked by the service; the session is a signed cookie.
 * Promise: the cookie names the person and the count of her sessions' ends, never a role; roles are read from the
 * records at each request, so that whoever leaves is out at once.
 */
import 'server-only'
import type { NextAuthOptions } from 'next-auth'
import credentials from 'next-auth/providers/credentials'
import { env } from '#lib/env.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { checkSignIn } from '#lib/service/sign-in.ts'
import { paths } from './paths.ts'

/** A shift and the next: long enough not to sign out a night, short enough for a phone left in a van. */
export const SESSION_SECONDS_MAX = 7 * 24 * 60 * 60

declare module 'next-auth' {
  interface Session {
    personId?: number
    epoch?: number
  }
  interface User {
    epoch: number
  }
}

/** Read at each request, since a build has no surroundings. */
export function authOptions(): NextAuthOptions {
  return {
    secret: env().NEXTAUTH_SECRET,
    session: { strategy: 'jwt', maxAge: SESSION_SECONDS_MAX },
    pages: { signIn: paths.signIn(), error: paths.signIn() },
    providers: [
      credentials({
        credentials: { email: { type: 'email' }, password: { type: 'password' } },
        authorize: async typed => (typed === undefined ? null : await authorized(typed)),
      }),
    ],
    callbacks: {
      jwt: ({ token, user }) => (user === undefined ? token : { ...token, sub: user.id, epoch: user.epoch }),
      session: ({ session, token }) => ({
        expires: session.expires,
        ...(token.sub !== undefined && { personId: Number(token.sub) }),
        ...(typeof token['epoch'] === 'number' && { epoch: token['epoch'] }),
      }),
    },
  }
}

async function authorized(typed: Record<string, string>) {
  try {
    const { personId, epoch } = await checkSignIn(typed)
    return { id: String(personId), epoch }
  } catch (thrown) {
    if (isFailure(thrown)) return null
    throw thrown
  }
}
