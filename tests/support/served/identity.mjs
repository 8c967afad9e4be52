/**
 * An OpenID Connect provider on a free port of this machine: the package oidc-provider, certified by the OpenID
 * Foundation as its read me says, with its own pages for signing in and agreeing, where any password is right.
 */
import { once } from 'node:events'
import { createServer } from 'node:http'
import Provider from 'oidc-provider'

const CLIENT = { id: 'roostwright', secret: 'a secret of the tests, known to all' }

/** @typedef {{ email?: string, email_verified?: boolean }} Claims */

/** @param {Readonly<Record<string, Claims>>} accounts by the name typed there */
export async function openIdentity(accounts) {
  /** @type {import('node:http').RequestListener} */
  let answer = (_request, response) => response.end()
  const server = createServer((request, response) => answer(request, response))
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  const address = server.address()
  const issuer = `http://localhost:${typeof address === 'object' ? address?.port : ''}`
  return {
    issuer,
    /** What the program is told of it. */
    env: {
      ROOSTWRIGHT_OIDC_ISSUER: issuer,
      ROOSTWRIGHT_OIDC_CLIENT_ID: CLIENT.id,
      ROOSTWRIGHT_OIDC_CLIENT_SECRET: CLIENT.secret,
      ROOSTWRIGHT_OIDC_NAME: 'Coast account',
    },
    /** It must know where it may lead back to, and that is known last. @param {string} url */
    knows(url) {
      answer = new Provider(issuer, {
        clients: [
          {
            client_id: CLIENT.id,
            client_secret: CLIENT.secret,
            redirect_uris: [`${url}/api/auth/callback/provider`],
          },
        ],
        claims: { openid: ['sub'], email: ['email', 'email_verified'] },
        cookies: { keys: ['of the tests'] },
        pkce: { required: () => true },
        /** @param {unknown} _context @param {string} id */
        findAccount: (_context, id) => ({ accountId: id, claims: () => ({ sub: id, ...accounts[id] }) }),
      }).callback()
    },
    async close() {
      server.closeAllConnections()
      server.close()
      await once(server, 'close')
    },
  }
}
