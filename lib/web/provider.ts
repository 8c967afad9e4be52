/**
 * Signing in through an OpenID Connect provider, where one is set.
 * Promise: authorization code with PKCE, state and nonce; whoever comes back is matched by an e-mail that the provider
 * says is verified to somebody who is switched on here, and gets no account otherwise. Begins by a link, since a form
 * may lead to our own pages only.
 */
import 'server-only'
import { createHash, randomBytes } from 'node:crypto'
import { cookies } from 'next/headers'
import { NextRequest } from 'next/server'
import NextAuth, { type NextAuthOptions } from 'next-auth'
import type { OAuthConfig } from 'next-auth/providers/oauth'
import { env } from '#lib/env.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { logFault } from '#lib/service/log.ts'
import { checkProvided, findProvided } from '#lib/service/provided.ts'
import { currentAddress } from './address.ts'
import { authOptions } from './auth-options.ts'
import { currentNow } from './clock.ts'
import { paths, safeReturn } from './paths.ts'

const ID = 'provider'

/** What the way through the provider is called; undefined where none is set. */
export function providerName(): string | undefined {
  const { ROOSTWRIGHT_OIDC_ISSUER: issuer, ROOSTWRIGHT_OIDC_NAME: name } = env()
  return issuer === undefined ? undefined : (name ?? new URL(issuer).host)
}

/** What next-auth answers with. */
export function providerOptions(): NextAuthOptions {
  const options = authOptions()
  return {
    ...options,
    providers: providers(),
    callbacks: {
      ...options.callbacks,
      signIn: async ({ profile }) => {
        try {
          await checkProvided(profile, { address: await currentAddress(), now: await currentNow() })
          return true
        } catch (thrown) {
          if (isFailure(thrown)) return paths.signIn(undefined, 'provider')
          throw thrown
        }
      },
      jwt: async ({ token, account, profile }) => {
        if (!account) return token
        const { personId, epoch } = await findProvided(profile)
        return { sub: String(personId), epoch }
      },
    },
    // Its own lines would hold what the provider said of a person.
    logger: {
      error: code => void logFault(new Error(`next-auth: ${code}`)),
      warn: () => {},
      debug: () => {},
    },
  }
}

function providers(): OAuthConfig<Record<string, unknown>>[] {
  const {
    ROOSTWRIGHT_OIDC_ISSUER: issuer,
    ROOSTWRIGHT_OIDC_CLIENT_ID: clientId,
    ROOSTWRIGHT_OIDC_CLIENT_SECRET: clientSecret,
  } = env()
  if (issuer === undefined || clientId === undefined || clientSecret === undefined) return []
  return [
    {
      id: ID,
      name: ID,
      type: 'oauth',
      issuer,
      wellKnown: `${issuer.replace(/\/$/, '')}/.well-known/openid-configuration`,
      clientId,
      clientSecret,
      idToken: true,
      checks: ['pkce', 'state', 'nonce'],
      authorization: { params: { scope: 'openid email' } },
      // The e-mail may stand in the token or only with the user's information; what both say must be of one subject.
      userinfo: {
        request: async ({ client, tokens }) => {
          const { id_token: idToken, access_token: accessToken } = tokens
          const claims = idToken === undefined ? {} : claimsOf(idToken)
          return accessToken === undefined
            ? claims
            : { ...claims, ...(await client.userinfo(tokens as never)) }
        },
      },
      profile: claims => ({ id: String(claims['sub']) }),
    },
  ]
}

/** The client has verified the token; this only reads it. */
function claimsOf(idToken: string): Record<string, unknown> {
  const [, body = ''] = idToken.split('.')
  const read: unknown = JSON.parse(Buffer.from(body, 'base64url').toString('utf8'))
  return typeof read === 'object' && read !== null ? { ...read } : {}
}

/** Leaves for the provider, and comes back to an address of ours. */
export async function leaveForProvider(to: unknown): Promise<Response> {
  const base = env().NEXTAUTH_URL
  const token = randomBytes(32).toString('hex')
  const signed = createHash('sha256').update(`${token}${env().NEXTAUTH_SECRET}`).digest('hex')
  const isSecure = base.startsWith('https:')
  const jar = await cookies()
  jar.set(`${isSecure ? '__Host-' : ''}next-auth.csrf-token`, `${token}|${signed}`, {
    httpOnly: true,
    sameSite: 'lax',
    path: '/',
    secure: isSecure,
  })
  const asked = new NextRequest(new URL(`/api/auth/signin/${ID}`, base), {
    method: 'POST',
    body: new URLSearchParams({ csrfToken: token, callbackUrl: new URL(safeReturn(to), base).href }),
  })
  return NextAuth(providerOptions())(asked, { params: Promise.resolve({ nextauth: ['signin', ID] }) })
}
